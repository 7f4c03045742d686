package everypart.analyzer.study;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.statistics.TwoByTwo;
import everypart.lexicon.DemandKind;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Counts the verdicts of a study as they come in.
 *
 * <p>Memory depends on the number of prompts, demands and group values, not on the number of
 * responses, except where drafts are paired ({@link DraftPairs}). All counts are whole numbers, so
 * the order of the responses changes nothing, and tallies of parts can be put together ({@link
 * #merge}). They travel by Java's own serialisation. Not safe for use by several threads.
 */
public final class StudyTally implements Serializable {
  private static final long serialVersionUID = 1L;

  /** A group column with more values than this is no group. */
  public static final int MOST_GROUP_VALUES = 200;

  /** Prompts with more demands than this are left out of co-omission by demand. */
  static final int MOST_PAIRED_DEMANDS = 60;

  /**
   * Names a cell.
   *
   * @param name the value, or the column where values are of a group
   * @param value the value of the group; empty for other dimensions
   * @param kind the kind within the group; empty for other dimensions
   */
  record Key(Dimension dimension, String name, String value, String kind) implements Serializable {
    static final Comparator<Key> ORDER =
        Comparator.comparing(Key::dimension)
            .thenComparing(Key::band)
            .thenComparing(Key::name)
            .thenComparing(Key::value)
            .thenComparing(Key::kind);

    /** Returns where a band of lengths stands among them, since their names do not sort so. */
    int band() {
      return dimension == Dimension.LENGTH ? LengthBand.valueOf(name).step() : 0;
    }

    static Key of(Dimension dimension, String name) {
      return new Key(dimension, name, "", "");
    }
  }

  /** The cells and pairs of one prompt, found once and then reused for each response to it. */
  private static final class PromptCells implements Serializable {
    private static final long serialVersionUID = 1L;
    private final List<List<Cell>> ofDemand = new ArrayList<>();
    private final List<DemandRow> demands;
    private final EnumMap<Verdict, Long> verdicts = new EnumMap<>(Verdict.class);
    private final long[][][] pairs;

    PromptCells(List<DemandRow> demands) {
      this.demands = demands;
      int paired = demands.size() <= MOST_PAIRED_DEMANDS ? demands.size() : 0;
      pairs = new long[paired][paired][4];
    }
  }

  private final StudyDesign design;
  private final Map<Key, Cell> cells = new HashMap<>();
  private final Map<String, PromptCells> prompts = new TreeMap<>();
  private final Map<String, Set<String>> groupValues = new TreeMap<>();
  private final Map<DemandKind, Map<DemandKind, long[]>> kindPairs =
      new EnumMap<>(DemandKind.class);
  private final @Nullable DraftPairs drafts;
  private final Nesting nesting = new Nesting();
  private final long[] unnamed = new long[StudyDesign.MOST_LEVELS];
  private long responses;
  private long complete;
  private long byMeaning;
  private final long[] openDemands = new long[MOST_PAIRED_DEMANDS + 1];

  /** Makes an empty tally. */
  public StudyTally(StudyDesign design) {
    this.design = design;
    this.drafts = design.drafts().isEmpty() ? null : new DraftPairs(design.drafts().get());
  }

  /**
   * Counts one response.
   *
   * @throws IllegalArgumentException saying what is wrong when a group column has too many values,
   *     or the response lacks a column of the design, or its demands are not those of an earlier
   *     response to the same prompt
   */
  public void add(JudgedResponse response) {
    PromptCells prompt =
        prompts.computeIfAbsent(response.promptId(), id -> promptCells(id, response.demands()));
    List<DemandRow> demands = response.demands();
    if (prompt.ofDemand.size() != demands.size()) {
      throw otherDemands(response.promptId(), prompt.ofDemand.size(), demands.size());
    }
    responses++;
    byMeaning += response.byMeaning() > 0 ? 1 : 0;
    prompt.verdicts.merge(response.verdict(), 1L, Long::sum);
    Set<Cell> touched = new LinkedHashSet<>();
    Cell length = cell(Key.of(Dimension.LENGTH, LengthBand.of(response.words()).name()));
    List<String> values = new ArrayList<>();
    for (String column : design.by()) {
      values.add(groupValue(column, value(response, column)));
    }
    for (int at = 0; at < demands.size(); at++) {
      DemandRow row = demands.get(at);
      for (Cell cell : prompt.ofDemand.get(at)) {
        add(cell, row, touched);
      }
      add(length, row, touched);
      for (int group = 0; group < values.size(); group++) {
        String column = design.by().get(group);
        String value = values.get(group);
        add(cell(new Key(Dimension.GROUP, column, value, "")), row, touched);
        add(cell(new Key(Dimension.GROUP_KIND, column, value, row.kind().word())), row, touched);
      }
    }
    String name = cluster(response, 0);
    ClusterCounts.Cluster cluster = ClusterCounts.Cluster.of(name);
    touched.forEach(cell -> cell.close(cluster));
    if (design.clusters().size() > 1) {
      nesting.add(name, cluster(response, 1), demands);
    }
    pair(prompt, demands);
    if (design.drafts().isPresent()) {
      draft(design.drafts().get(), name, response);
    }
    long open = demands.stream().filter(row -> row.verdict() == Verdict.MISSING).count();
    complete += open == 0 ? 1 : 0;
    openDemands[(int) Math.min(open, MOST_PAIRED_DEMANDS)]++;
  }

  /**
   * Adds what another tally counted, as if its responses had been added here. Tallies of parts of a
   * study, counted in different places, give in any order the tally of the whole.
   *
   * @return this tally
   * @throws IllegalArgumentException saying what is wrong when the two are of other designs, or do
   *     not fit together as responses of one tally must
   */
  public StudyTally merge(StudyTally other) {
    if (!design.equals(other.design)) {
      throw new IllegalArgumentException("tallies of two designs cannot be put together");
    }
    other.prompts.forEach(this::merge);
    other.groupValues.forEach(
        (column, values) -> values.forEach(value -> groupValue(column, value)));
    other.cells.forEach((key, cell) -> cell(key).merge(cell));
    other.kindPairs.forEach(
        (first, seconds) ->
            seconds.forEach((second, counts) -> add(counts(first, second), counts)));
    if (drafts != null && other.drafts != null) {
      drafts.merge(other.drafts);
    }
    nesting.merge(other.nesting);
    add(unnamed, other.unnamed);
    responses += other.responses;
    complete += other.complete;
    byMeaning += other.byMeaning;
    add(openDemands, other.openDemands);
    return this;
  }

  private void merge(String id, PromptCells other) {
    PromptCells own = prompts.computeIfAbsent(id, unused -> promptCells(id, other.demands));
    if (own.demands.size() != other.demands.size()) {
      throw otherDemands(id, own.demands.size(), other.demands.size());
    }
    other.verdicts.forEach((verdict, count) -> own.verdicts.merge(verdict, count, Long::sum));
    for (int first = 0; first < own.pairs.length; first++) {
      for (int second = 0; second < own.pairs.length; second++) {
        add(own.pairs[first][second], other.pairs[first][second]);
      }
    }
  }

  private static void add(long[] counts, long[] more) {
    for (int at = 0; at < counts.length; at++) {
      counts[at] += more[at];
    }
  }

  private long[] counts(DemandKind first, DemandKind second) {
    return kindPairs
        .computeIfAbsent(first, kind -> new EnumMap<>(DemandKind.class))
        .computeIfAbsent(second, kind -> new long[4]);
  }

  private static void add(Cell cell, DemandRow row, Set<Cell> touched) {
    cell.add(row);
    touched.add(cell);
  }

  /** Returns what a response comes from; a response that does not say so stands alone. */
  private String cluster(JudgedResponse response, int level) {
    if (design.clusters().isEmpty()) {
      return response.responseId();
    }
    String value = value(response, design.clusters().get(level)).strip();
    if (value.isEmpty()) {
      unnamed[level]++;
      return "\u0000" + response.responseId();
    }
    return value;
  }

  private void draft(StudyDesign.Drafts columns, String cluster, JudgedResponse response) {
    String writer = value(response, columns.writer()).strip();
    String draft = value(response, columns.column()).strip();
    if (drafts != null) {
      if (writer.isEmpty() || draft.isEmpty()) {
        drafts.addUnplaced();
      } else {
        drafts.add(writer, draft, cluster, response);
      }
    }
  }

  private Cell cell(Key key) {
    return cells.computeIfAbsent(key, unused -> new Cell());
  }

  private static IllegalArgumentException otherDemands(String prompt, int one, int other) {
    return new IllegalArgumentException(
        "prompt \""
            + prompt
            + "\" has "
            + one
            + " demands in one response and "
            + other
            + " in another");
  }

  private PromptCells promptCells(String prompt, List<DemandRow> demands) {
    PromptCells found = new PromptCells(demands);
    for (DemandRow row : demands) {
      String part = prompt + "/" + row.part();
      found.ofDemand.add(
          List.of(
              cell(Key.of(Dimension.ALL, "all")),
              cell(Key.of(Dimension.KIND, row.kind().word())),
              cell(Key.of(Dimension.VERB, row.verb())),
              cell(Key.of(Dimension.PROMPT, prompt)),
              cell(Key.of(Dimension.PART, part)),
              cell(demandKey(prompt, row)),
              cell(Key.of(Dimension.POSITION, position(row.position())))));
    }
    return found;
  }

  private static Key demandKey(String prompt, DemandRow row) {
    return new Key(
        Dimension.DEMAND,
        prompt + "/" + row.part(),
        String.valueOf(row.number()),
        row.kind().word());
  }

  /** Positions sort as text, so they are padded. */
  private static String position(int position) {
    return String.format(Locale.ROOT, "%03d", position);
  }

  private static String value(JudgedResponse response, String column) {
    String value = response.groups().get(column);
    if (value == null) {
      throw new IllegalArgumentException("the responses have no column \"" + column + "\"");
    }
    return value;
  }

  private String groupValue(String column, String value) {
    Set<String> seen = groupValues.computeIfAbsent(column, name -> new LinkedHashSet<>());
    if (seen.add(value) && seen.size() > MOST_GROUP_VALUES) {
      throw new IllegalArgumentException(
          "the column \""
              + column
              + "\" has more than "
              + MOST_GROUP_VALUES
              + " values, so it is no group");
    }
    return value;
  }

  private void pair(PromptCells prompt, List<DemandRow> demands) {
    EnumMap<DemandKind, Boolean> kinds = new EnumMap<>(DemandKind.class);
    for (int first = 0; first < demands.size(); first++) {
      DemandRow row = demands.get(first);
      if (row.verdict() == Verdict.UNCHECKED) {
        continue;
      }
      boolean missing = row.verdict() == Verdict.MISSING;
      kinds.merge(row.kind(), missing, Boolean::logicalOr);
      for (int second = first + 1; second < prompt.pairs.length; second++) {
        Verdict other = demands.get(second).verdict();
        if (other != Verdict.UNCHECKED) {
          prompt.pairs[first][second][corner(missing, other == Verdict.MISSING)]++;
        }
      }
    }
    kinds.forEach(
        (first, missing) ->
            kinds.forEach(
                (second, alsoMissing) -> {
                  if (first.compareTo(second) < 0) {
                    counts(first, second)[corner(missing, alsoMissing)]++;
                  }
                }));
  }

  private static int corner(boolean first, boolean second) {
    return (first ? 0 : 2) + (second ? 0 : 1);
  }

  StudyDesign design() {
    return design;
  }

  /** Returns the cells in the order of their keys. */
  Map<Key, Cell> cells() {
    Map<Key, Cell> sorted = new TreeMap<>(Key.ORDER);
    sorted.putAll(cells);
    return sorted;
  }

  long responses() {
    return responses;
  }

  /** Returns how many responses leave no demand open. */
  long complete() {
    return complete;
  }

  /** Returns how many responses have sentences compared in meaning. */
  long byMeaning() {
    return byMeaning;
  }

  /** Returns how many responses leave so many demands open, from none upwards. */
  List<Long> byOpenDemands() {
    List<Long> counts = new ArrayList<>();
    int last = openDemands.length - 1;
    while (last > 0 && openDemands[last] == 0) {
      last--;
    }
    for (int open = 0; open <= last; open++) {
      counts.add(openDemands[open]);
    }
    return counts;
  }

  /** Returns the counts of each prompt that has a response, by id. */
  List<StudySummary.PromptCounts> byPrompt() {
    List<StudySummary.PromptCounts> counts = new ArrayList<>();
    prompts.forEach(
        (id, prompt) -> {
          List<StudySummary.DemandCounts> demands = new ArrayList<>();
          for (DemandRow row : prompt.demands) {
            Cell cell = cell(demandKey(id, row));
            demands.add(
                new StudySummary.DemandCounts(
                    row.part(),
                    row.number(),
                    row.kind(),
                    row.verb(),
                    cell.verdicts(),
                    cell.look()));
          }
          counts.add(new StudySummary.PromptCounts(id, Map.copyOf(prompt.verdicts), demands));
        });
    return counts;
  }

  Optional<DraftPairs> drafts() {
    return Optional.ofNullable(drafts);
  }

  Nesting nesting() {
    return nesting;
  }

  /** Returns how many responses do not say what they come from, at a level. */
  long unnamed(int level) {
    return unnamed[level];
  }

  /** Takes two things that can be left open together. */
  interface PairSink {
    void accept(String prompt, String first, String second, TwoByTwo table);
  }

  /** Hands on each two kinds that stand together in a prompt, and each two demands of a prompt. */
  void forEachPair(PairSink sink) {
    kindPairs.forEach(
        (first, others) ->
            others.forEach(
                (second, counts) -> hand(sink, "", first.word(), second.word(), counts)));
    prompts.forEach(
        (id, prompt) -> {
          for (int first = 0; first < prompt.pairs.length; first++) {
            for (int second = first + 1; second < prompt.pairs.length; second++) {
              hand(
                  sink,
                  id,
                  name(prompt.demands.get(first)),
                  name(prompt.demands.get(second)),
                  prompt.pairs[first][second]);
            }
          }
        });
  }

  private static String name(DemandRow demand) {
    return demand.part() + "." + demand.number() + " " + demand.kind().word();
  }

  private static void hand(
      PairSink sink, String prompt, String first, String second, long[] counts) {
    TwoByTwo table = new TwoByTwo(counts[0], counts[1], counts[2], counts[3]);
    if (table.total() > 0) {
      sink.accept(prompt, first, second, table);
    }
  }
}

package everypart.analyzer.assign;

import everypart.analyzer.meaning.SentenceMeaning;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.analyzer.text.Token;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.WeakHashMap;
import java.util.concurrent.locks.ReentrantLock;

/**
 * Gives each stretch of a response to the part it answers, or to none. Serves all threads.
 *
 * <p>The writer's labels come first. What has none, before the first label or in a response without
 * any, is aligned to the parts by its words, and by what a reader makes of it where there is one.
 */
public final class PartAssigner {
  /** A score that no words can reach, so that a labelled sentence stays with its label. */
  private static final double LABELLED = 1000;

  /** Log-odds beyond these, from where a unit belongs to a part, add nothing. */
  private static final double LEAST_PLACED = -1.5;

  private static final double MOST_PLACED = 4;

  private final Lexicon lexicon;
  private final TextReader texts;
  private final AlignmentSettings settings;
  private final Alignment alignment;
  private final Seams seams;
  private final Optional<SentenceMeaning> meaning;
  private final Optional<Bearing> bearing;
  private final Map<Prompt, KnownPrompt> read = new WeakHashMap<>();
  private final ReentrantLock lock = new ReentrantLock();

  /** What is read of a prompt once, for all its responses. */
  private record KnownPrompt(
      Labels labels, List<PartProfile> profiles, Optional<MeaningMatch> meaning) {}

  /** Makes an assigner that goes by labels and words alone. */
  public PartAssigner(Lexicon lexicon, TextReader texts) {
    this(lexicon, texts, Optional.empty());
  }

  /**
   * Makes an assigner.
   *
   * @param meaning is asked about the sentences that labels and words leave open
   */
  public PartAssigner(Lexicon lexicon, TextReader texts, Optional<SentenceMeaning> meaning) {
    this(lexicon, texts, meaning, Optional.empty());
  }

  /**
   * Makes an assigner.
   *
   * @param meaning is asked about the sentences that labels and words leave open
   * @param bearing is asked about responses with text that no label places
   */
  public PartAssigner(
      Lexicon lexicon,
      TextReader texts,
      Optional<SentenceMeaning> meaning,
      Optional<Bearing> bearing) {
    this(
        lexicon,
        texts,
        bearing.map(AlignmentSettings::beside).orElseGet(AlignmentSettings::byWords),
        meaning,
        bearing);
  }

  PartAssigner(
      Lexicon lexicon,
      TextReader texts,
      AlignmentSettings settings,
      Optional<SentenceMeaning> meaning,
      Optional<Bearing> bearing) {
    this.meaning = meaning;
    this.bearing = bearing;
    this.lexicon = lexicon;
    this.texts = texts;
    this.settings = settings;
    this.alignment = new Alignment(settings, lexicon);
    this.seams = new Seams(lexicon);
  }

  /** Assigns a response. */
  public Assignment assign(Prompt prompt, Text response) {
    if (prompt.parts().size() == 1) {
      Optional<String> only = Optional.of(prompt.parts().get(0).label());
      return new Assignment(
          response.sentences().stream().map(sentence -> new Stretch(sentence, only)).toList(),
          List.of(),
          List.of());
    }
    KnownPrompt reading = read(prompt);
    LabelReader reader = new LabelReader(reading.labels());
    List<LabelMark> marks = reader.read(response);
    List<String> remarks = new ArrayList<>();
    List<Sentence> pieces = new ArrayList<>();
    List<List<String>> labelled = new ArrayList<>();
    List<Integer> behind = new ArrayList<>();
    cut(response, marks, pieces, labelled, behind);
    if (!marks.isEmpty()) {
      new LabelSlips(alignment, reading.labels(), reading.profiles())
          .mend(response.raw(), pieces, marks, behind, labelled, remarks);
    }

    if (!marks.isEmpty()) {
      for (int i = 0; i < pieces.size(); i++) {
        Optional<String> back = reader.pointsBack(response.raw(), pieces.get(i));
        if (back.isPresent()) {
          labelled.set(i, List.of(back.get()));
        }
      }
    }

    List<String> parts = reading.labels().parts();
    Set<String> taken = new HashSet<>();
    labelled.forEach(taken::addAll);
    List<Unit> units = new ArrayList<>();
    for (int i = 0; i < pieces.size(); i++) {
      if (labelled.get(i).size() == 1) {
        units.add(Unit.whole(pieces.get(i), i));
      } else {
        units.addAll(Unit.clauses(pieces.get(i), i, seams.in(response.raw(), pieces.get(i))));
      }
    }
    double[][] bonus = new double[units.size()][parts.size()];
    for (int i = 0; i < units.size(); i++) {
      Unit unit = units.get(i);
      List<String> label = labelled.get(unit.piece());
      for (int p = 0; p < parts.size(); p++) {
        if (!label.isEmpty()) {
          bonus[i][p] = label.contains(parts.get(p)) ? LABELLED : 0;
        } else if (taken.contains(parts.get(p))) {
          bonus[i][p] = -unit.share();
        }
      }
    }
    if (bearing.isPresent() && labelled.stream().anyMatch(List::isEmpty)) {
      double[][] bears = bearing.get().of(prompt, texts(response.raw(), units));
      for (int i = 0; i < units.size(); i++) {
        if (labelled.get(units.get(i).piece()).isEmpty()) {
          for (int p = 0; p < parts.size(); p++) {
            bonus[i][p] += units.get(i).share() * (placed(bears[i][p]) + rival(bears[i], p));
          }
        }
      }
    }
    double[][] matches = alignment.matches(response.raw(), units, pieces, reading.profiles());
    int[] path = alignment.align(units, parts.size(), matches, bonus);
    boolean[] asked = new boolean[units.size()];
    boolean open = false;
    for (Run run : Run.of(units, path)) {
      if (reading.meaning().isEmpty()
          || !labelled.get(run.piece()).isEmpty()
          || run.lead(matches) >= settings.decided()) {
        continue;
      }
      open = true;
      double[] nearness = reading.meaning().get().of(response.raw(), run.words(pieces));
      run.add(bonus, p -> settings.meaning() * nearness[p]);
      for (int i = run.first(); i < run.end(); i++) {
        asked[i] = true;
        for (int p = 0; p < parts.size(); p++) {
          bonus[i][p] -= (1 - settings.besideMeaning()) * matches[i][p];
        }
      }
    }
    if (open) {
      path = alignment.align(units, parts.size(), matches, bonus);
    }
    List<Stretch> stretches = new ArrayList<>();
    List<List<String>> labels = new ArrayList<>();
    List<double[]> likeness = new ArrayList<>();
    for (Run run : Run.of(units, path)) {
      stretches.add(
          new Stretch(
              run.words(pieces),
              run.part() == parts.size() ? Optional.empty() : Optional.of(parts.get(run.part())),
              asked[run.first()],
              labelled.get(run.piece()).size() == 1));
      labels.add(labelled.get(run.piece()));
      likeness.add(run.sum(matches));
    }
    List<Nearest> nearest =
        new NearestFinder(parts, reading.profiles())
            .find(likeness.toArray(double[][]::new), stretches, labels);
    return new Assignment(stretches, remarks, nearest);
  }

  /** Returns what speaks for a part, over none, in how much a unit bears on it. */
  private double placed(double bears) {
    return settings.placed()
        * Math.max(LEAST_PLACED, Math.min(MOST_PLACED, bears - settings.placedFrom()));
  }

  /** Returns what speaks for a part in how much more a unit bears on it than on any other. */
  private double rival(double[] bears, int part) {
    double other = Double.NEGATIVE_INFINITY;
    for (int p = 0; p < bears.length; p++) {
      other = p == part ? other : Math.max(other, bears[p]);
    }
    double lead = bears[part] - other;
    return settings.rival() * Math.max(-settings.mostRival(), Math.min(settings.mostRival(), lead));
  }

  /** Cuts a response behind each unit, so that every sign of it belongs to one. */
  private static List<String> texts(String raw, List<Unit> units) {
    List<String> texts = new ArrayList<>();
    int from = 0;
    for (int i = 0; i < units.size(); i++) {
      int to = i + 1 < units.size() ? units.get(i).words().end() : raw.length();
      texts.add(raw.substring(Math.min(from, to), to));
      from = Math.max(from, to);
    }
    return texts;
  }

  private KnownPrompt read(Prompt prompt) {
    lock.lock();
    try {
      return read.computeIfAbsent(
          prompt,
          key ->
              new KnownPrompt(
                  new Labels(key, lexicon.taskVerbs()),
                  PartProfile.of(key, texts, lexicon, settings),
                  meaning.map(model -> new MeaningMatch(model, key, texts))));
    } finally {
      lock.unlock();
    }
  }

  /**
   * Cuts sentences at labels and line breaks and says which parts the label of each piece names,
   * and which of the labels it is.
   */
  private static void cut(
      Text response,
      List<LabelMark> marks,
      List<Sentence> pieces,
      List<List<String>> labelled,
      List<Integer> behind) {
    LineBreaks breaks = new LineBreaks(response.raw());
    int next = 0;
    for (Sentence sentence : response.sentences()) {
      int start = sentence.start();
      boolean line = sentence.lineStart();
      while (next < marks.size() && marks.get(next).span().start() < sentence.end()) {
        LabelMark mark = marks.get(next);
        if (mark.span().start() > start) {
          add(sentence, start, mark.span().start(), line, breaks, next, marks, pieces, behind);
          line = false;
          start = mark.span().start();
        }
        next++;
      }
      add(sentence, start, sentence.end(), line, breaks, next, marks, pieces, behind);
    }
    behind.forEach(mark -> labelled.add(mark < 0 ? List.of() : marks.get(mark).parts()));
  }

  private static void add(
      Sentence sentence,
      int start,
      int end,
      boolean line,
      LineBreaks breaks,
      int next,
      List<LabelMark> marks,
      List<Sentence> pieces,
      List<Integer> behind) {
    int from = start;
    boolean lineStart = line;
    boolean one = next > 0 && marks.get(next - 1).parts().size() == 1;
    for (int at : one ? List.<Integer>of() : breaks.inside(start, end)) {
      add(slice(sentence, from, at, lineStart), next - 1, pieces, behind);
      from = at;
      lineStart = true;
    }
    add(slice(sentence, from, end, lineStart), next - 1, pieces, behind);
  }

  private static void add(
      Optional<Sentence> piece, int mark, List<Sentence> pieces, List<Integer> behind) {
    piece.ifPresent(
        sentence -> {
          pieces.add(sentence);
          behind.add(mark);
        });
  }

  /** Returns the first token that starts at a place or behind it. */
  private static int firstFrom(List<Token> tokens, int place) {
    int low = 0;
    int high = tokens.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (tokens.get(middle).start() < place) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  private static Optional<Sentence> slice(Sentence sentence, int start, int end, boolean line) {
    if (start == sentence.start() && end == sentence.end()) {
      return Optional.of(sentence);
    }
    List<Token> all = sentence.tokens();
    int first = firstFrom(all, start);
    int last = firstFrom(all, end);
    // A token that the cut goes through belongs to neither side.
    while (last > first && all.get(last - 1).end() > end) {
      last--;
    }
    List<Token> tokens = all.subList(first, Math.max(first, last));
    return tokens.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Sentence(
                tokens.get(0).start(),
                tokens.get(tokens.size() - 1).end(),
                tokens,
                line,
                start == sentence.start() && sentence.paragraphStart()));
  }
}

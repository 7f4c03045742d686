package everypart.analyzer.prompt;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import everypart.lexicon.TaskVerbs;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads a prompt from plain text or Markdown: its parts by their labels, then the demands of each
 * part. One reader serves all threads.
 *
 * <p>Text before the first label is stimulus and demands nothing, unless its last sentence runs on
 * through the labels ("Calculate (i) the rate ..."). So does a paragraph behind a part's last
 * demand.
 */
public final class PromptReader {
  private static final Pattern HEADING = Pattern.compile("^[ \\t]{0,3}#{1,6}[ \\t]+(\\S[^\\n]*)");
  private static final Pattern BLANK_LINE = Pattern.compile("\\n[ \\t]*\\n");

  /** A longer first line is a sentence, not a title, in characters. Chosen by eye. */
  private static final int LONGEST_TITLE = 80;

  /** More marks than this are given for the fullness of an answer, not for its number of things. */
  private static final int MOST_HINTED = 4;

  private static final Pattern FIGURES = Pattern.compile("\\d{1,3}");

  /** "the products of", "uses for": a plural without a number. */
  private static final Pattern SEVERAL =
      Pattern.compile(
          "(?: (?!each|both|either|which|what|how|why|whether|one|an?|and|this|that)\\p{L}+){0,3}?"
              + " (?!(?:gas|lens|series|species|atlas|bias|canvas|news)\\b)\\p{L}{2,}(?<![suiy])s(?= (?:of|for|in|that|which|from|at|on|to|shown)\\b|[ .]*$)");

  /** What is said of a prompt without labels in which nothing is asked. */
  static final String NOTHING_ASKED = Sayings.of("remark.nothingAsked");

  private final TextReader texts;
  private final DemandReader reader;
  private final TaskVerbs verbs;

  /** Makes a reader. */
  public PromptReader(Lexicon lexicon) {
    this.texts = new TextReader(lexicon.forms()::stem);
    this.verbs = lexicon.taskVerbs();
    this.reader = new DemandReader(verbs, texts);
  }

  /** Returns parts with each ground tied to its claim. */
  List<Part> tied(List<Part> parts) {
    return Claims.tied(verbs, parts);
  }

  /** Reads a prompt. */
  public Prompt read(String id, String text) {
    PlainWording wording = PlainWording.of(text);
    Optional<Span> title = title(text);
    title.ifPresent(span -> wording.quiet().set(0, span.end()));
    return new Pass(text, wording, title).prompt(id);
  }

  /**
   * Reads a part's wording as a prompt of its own.
   *
   * @param stimulus the text that the part refers to
   */
  Prompt part(String wording, String stimulus) {
    PlainWording plain = PlainWording.of(wording);
    Pass pass = new Pass(wording, plain, Optional.empty());
    pass.learn(texts.read(stimulus));
    return pass.prompt("");
  }

  /** A first line that is a heading: marked as one, or short, without a stop and alone. */
  private static Optional<Span> title(String text) {
    int start = 0;
    while (start < text.length() && Character.isWhitespace(text.charAt(start))) {
      start++;
    }
    int end = text.indexOf('\n', start);
    if (end < 0) {
      return Optional.empty();
    }
    String line = text.substring(start, end).strip();
    Matcher heading = HEADING.matcher(line);
    if (heading.find()) {
      return Optional.of(new Span(start + heading.start(1), end));
    }
    boolean alone =
        end + 1 < text.length()
            && text.substring(end + 1).stripLeading().length() > 0
            && BLANK_LINE
                .matcher(text.substring(end, Math.min(text.length(), end + 20)))
                .lookingAt();
    boolean plain =
        line.length() <= LONGEST_TITLE
            && !line.isEmpty()
            && ".?!:;,)]".indexOf(line.charAt(line.length() - 1)) < 0
            && Character.isLetter(line.replace("*", "").strip().charAt(0));
    return alone && plain ? Optional.of(new Span(start, end)) : Optional.empty();
  }

  /** The reading of one prompt. */
  private final class Pass {
    private final String text;
    private final PlainWording wording;
    private final Optional<Span> title;
    private final Numbers numbers = new Numbers(verbs);
    private final List<Part> parts = new ArrayList<>();
    private final List<Remark> remarks = new ArrayList<>();
    private final StringBuilder stimulus = new StringBuilder();

    Pass(String text, PlainWording wording, Optional<Span> title) {
      this.text = text;
      this.wording = wording;
      this.title = title;
      remarks.addAll(wording.setAside());
    }

    void learn(Text known) {
      for (Sentence sentence : known.sentences()) {
        reader.learn(sentence, wording, numbers);
      }
    }

    Prompt prompt(String id) {
      List<PartLayout.Node> nodes = labelled();
      int from = title.map(Span::end).orElse(0);
      if (nodes.isEmpty()) {
        addPart("1", from, text.length(), read(from, text.length(), 0));
      } else {
        int first = nodes.get(0).labelStart;
        keepAsStimulus(from, first);
        learn(texts.read(wording.text().substring(0, first)));
        group("", Math.min(from, first), first, nodes, true);
      }
      remarks.sort(java.util.Comparator.comparingInt((Remark remark) -> remark.span().start()));
      return new Prompt(
          id,
          title.map(span -> span.of(text).replaceAll("[#*_]", "").strip()),
          text,
          stimulus.toString().strip(),
          tied(parts),
          remarks);
    }

    /** The labelled stretches, without lists that only look like parts. */
    private List<PartLayout.Node> labelled() {
      List<PartLayout.Node> nodes = PartLayout.of(wording);
      while (!nodes.isEmpty()) {
        int last = nodes.size() - 1;
        boolean othersDemand = nodes.subList(0, last).stream().anyMatch(this::demands);
        PartLayout.Node end = nodes.get(last);
        if (othersDemand || runsOnInto(nodes.get(0))) {
          return nodes;
        }
        if (last > 0 && !end.children.isEmpty() && !ownDemand(end)) {
          nodes = end.children; // the numbered steps of a method, then the parts
        } else if (last > 0 && (!demands(end) || reads(0, nodes.get(0).labelStart))) {
          return List.of(); // a list of options or of items
        } else {
          return nodes;
        }
      }
      return nodes;
    }

    /** Tells whether the sentence before the first label asks something by way of its part. */
    private boolean runsOnInto(PartLayout.Node node) {
      return running(0, node.labelStart)
          .map(
              stem ->
                  !readBehind(
                          wording.text().substring(stem.start(), stem.end()), stem.start(), node)
                      .demands()
                      .isEmpty())
          .orElse(false);
    }

    private boolean demands(PartLayout.Node node) {
      return ownDemand(node) || node.children.stream().anyMatch(this::demands);
    }

    private boolean ownDemand(PartLayout.Node node) {
      int end = node.children.isEmpty() ? node.end : node.children.get(0).labelStart;
      return reads(node.textStart, end);
    }

    private boolean reads(int from, int to) {
      return !reader.read(wording, from, to, numbers.copy(), 0).demands().isEmpty();
    }

    private DemandReader.DemandsRead read(int from, int to, int items) {
      return reader.read(wording, from, to, numbers, items);
    }

    /** Reads labelled stretches and the stem before them. */
    private void group(
        String prefix, int stemFrom, int stemTo, List<PartLayout.Node> nodes, boolean root) {
      Optional<Span> running = running(stemFrom, stemTo);
      int complete = running.map(Span::start).orElse(stemTo);
      boolean anyDemand = nodes.stream().anyMatch(this::demands);
      boolean options =
          !root
              && running.isEmpty()
              && nodes.stream().limit(nodes.size() - 1L).noneMatch(this::demands);
      if (!root && (options || (!anyDemand && running.isEmpty()))) {
        int end = nodes.get(nodes.size() - 1).end;
        addPart(prefix, stemFrom, end, foldedReading(stemFrom, end, nodes, anyDemand));
        return;
      }
      String runningStem = "";
      int runningStart = complete;
      if (running.isPresent()) {
        List<Demand> stem =
            reader.read(wording, running.get().start(), stemTo, numbers.copy(), 0).demands();
        if (stem.size() > 1) {
          int last = stem.size() - 1;
          while (last > 0 && stem.get(last - 1).span().overlaps(stem.get(last).span())) {
            last--; // "State and explain the effect of (a) ...": one object for both verbs
          }
          runningStart = stem.get(last).span().start();
        }
        runningStem = wording.text().substring(runningStart, stemTo);
      }
      if (!root) {
        DemandReader.DemandsRead own = read(stemFrom, runningStart, 0);
        if (!own.demands().isEmpty()) {
          addPart(prefix, stemFrom, stemTo, own);
        } else {
          keepAsStimulus(stemFrom, runningStart); // what the sub-parts refer to
          remarks.addAll(own.remarks());
        }
      }
      for (PartLayout.Node node : nodes) {
        String label = prefix.isEmpty() ? node.label : prefix + "." + node.label;
        if (node.children.isEmpty()) {
          leaf(label, node, runningStem, runningStart);
        } else {
          group(label, node.textStart, node.children.get(0).labelStart, node.children, false);
        }
      }
    }

    private DemandReader.DemandsRead foldedReading(
        int from, int end, List<PartLayout.Node> nodes, boolean anyDemand) {
      if (anyDemand) {
        return read(from, end, 0);
      }
      return read(from, nodes.get(0).labelStart, nodes.size());
    }

    private void leaf(String label, PartLayout.Node node, String stem, int stemStart) {
      DemandReader.DemandsRead own = read(node.textStart, node.end, 0);
      if (own.demands().isEmpty() && !stem.isBlank()) {
        DemandReader.DemandsRead joined = readBehind(stem, stemStart, node);
        if (!joined.demands().isEmpty()) {
          addPart(label, node.textStart, node.end, joined);
          return;
        }
      }
      addPart(label, node.textStart, node.end, own);
    }

    /** Reads a part whose sentence began before its label: "Calculate (i) the rate". */
    private DemandReader.DemandsRead readBehind(String stem, int stemStart, PartLayout.Node node) {
      String head = stem.stripTrailing();
      head = head.replace('\n', ' ') + " ";
      String part = wording.text().substring(node.textStart, node.end);
      int skipped = part.length() - part.stripLeading().length();
      String joined = head + part.stripLeading();
      BitSet quiet = new BitSet();
      for (int i = 0; i < joined.length(); i++) {
        int place =
            i < head.length() ? stemStart + i : node.textStart + skipped + i - head.length();
        quiet.set(i, wording.quiet().get(place));
      }
      DemandReader.DemandsRead reading =
          reader.read(
              new PlainWording(joined, quiet, new BitSet(), List.of()),
              0,
              joined.length(),
              numbers,
              0);
      int shift = node.textStart + skipped - head.length();
      int ownStart = head.length();
      List<Demand> demands = new ArrayList<>();
      for (Demand demand : reading.demands()) {
        demands.add(
            demand.moved(
                span ->
                    span.end() <= ownStart && !span.equals(demand.span())
                        ? new Span(span.start() + stemStart, span.end() + stemStart)
                        : new Span(
                            Math.max(span.start(), ownStart) + shift,
                            Math.max(span.end(), ownStart) + shift)));
      }
      return new DemandReader.DemandsRead(demands, List.of(), List.of());
    }

    /** The last sentence of a stem when it does not end before the first label. */
    private Optional<Span> running(int from, int to) {
      String stem = wording.text().substring(from, to);
      String ink = stem.stripTrailing();
      if (ink.isBlank() || ".?!".indexOf(ink.charAt(ink.length() - 1)) >= 0) {
        return Optional.empty();
      }
      List<Sentence> sentences = Sentences.joined(texts.read(stem), 0, wording);
      Sentence last = sentences.get(sentences.size() - 1);
      int start = from + last.start();
      boolean apart = BLANK_LINE.matcher(stem.substring(last.end())).find();
      boolean colon = ink.endsWith(":");
      return apart && !colon ? Optional.empty() : Optional.of(new Span(start, to));
    }

    private void addPart(String label, int from, int to, DemandReader.DemandsRead found) {
      DemandReader.DemandsRead reading = found;
      if (found.demands().isEmpty()) {
        Optional<Demand> unknown = reader.byUnknownVerb(wording, from, to);
        if (unknown.isPresent()) {
          reading =
              new DemandReader.DemandsRead(List.of(unknown.get()), found.remarks(), found.told());
          remarks.add(
              new Remark(Remark.Kind.LOOK, unknown.get().span(), Sayings.of("remark.likeCommand")));
        }
      }
      List<Span> told = reading.told();
      reading =
          new DemandReader.DemandsRead(
              hinted(reading.demands(), to).stream()
                  .map(demand -> demand.worded(demand.asking().withSetUp(told)))
                  .toList(),
              reading.remarks(),
              told);
      int end = to;
      if (!reading.demands().isEmpty()) {
        end = cut(reading.demands(), from, to);
        keepAsStimulus(end, to);
      }
      int start = from;
      while (start < end && Character.isWhitespace(wording.text().charAt(start))) {
        start++;
      }
      while (end > start && Character.isWhitespace(text.charAt(end - 1))) {
        end--;
      }
      Span span = new Span(start, end);
      remarks.addAll(reading.remarks());
      if (reading.demands().isEmpty()) {
        remarks.add(
            new Remark(
                Remark.Kind.LOOK,
                reader.likeliest(wording, start, Math.max(start, end)),
                parts.isEmpty() && end >= text.stripTrailing().length()
                    ? NOTHING_ASKED
                    : Sayings.of("remark.nothingAskedInPart", label)));
      }
      parts.add(
          new Part(label, wording.shown(text, span), span, Optional.empty(), reading.demands()));
    }

    /** Lets the marks behind a demand for several unnumbered things say how many. */
    private List<Demand> hinted(List<Demand> demands, int to) {
      List<Demand> hinted = new ArrayList<>();
      for (int i = 0; i < demands.size(); i++) {
        Demand demand = demands.get(i);
        int next = i + 1 < demands.size() ? demands.get(i + 1).span().start() : to;
        String words = demand.span().of(wording.text()).toLowerCase(Locale.ROOT);
        int marks = marks(demand.span().start(), next);
        boolean several =
            demand.kind() == DemandKind.IDENTIFY
                && demand.count() == 1
                && words.startsWith(demand.verb())
                && SEVERAL.matcher(words.substring(demand.verb().length())).lookingAt();
        hinted.add(
            several && marks >= 2 && marks <= MOST_HINTED
                ? demand
                    .times(marks, CountSource.MARKS, Sayings.of("why.marks", marks))
                    .alsoRead(new Asking.OtherReading(demand.kind(), 1))
                : demand);
      }
      return hinted;
    }

    /** Returns the marks given in a stretch; 0 when none or several are. */
    private int marks(int from, int to) {
      List<Remark> given =
          wording.setAside().stream()
              .filter(remark -> remark.message().equals(PlainWording.MARKS_SET_ASIDE))
              .filter(remark -> remark.span().start() >= from && remark.span().end() <= to)
              .toList();
      if (given.size() != 1) {
        return 0;
      }
      Matcher number = FIGURES.matcher(given.get(0).span().of(text));
      return number.find() ? Integer.parseInt(number.group()) : 0;
    }

    /** Where a part ends: at the first empty line behind its last demand and the list below it. */
    private int cut(List<Demand> demands, int from, int to) {
      int last = from;
      for (Demand demand : demands) {
        last = Math.max(last, Math.min(demand.span().end(), to));
      }
      Matcher blank = BLANK_LINE.matcher(text).region(last, to);
      while (blank.find()) {
        String rest = text.substring(blank.end(), to).strip();
        if (rest.isEmpty()) {
          return to;
        }
        if (!startsListItem(rest)) {
          return blank.start();
        }
      }
      return to;
    }

    private boolean startsListItem(String rest) {
      return "-*\u2022\u2013\u25e6".indexOf(rest.charAt(0)) >= 0
          || (rest.length() > 1 && ".)".indexOf(rest.charAt(1)) >= 0)
          || rest.charAt(0) == '(';
    }

    private void keepAsStimulus(int from, int to) {
      String kept = text.substring(from, Math.max(from, to)).strip();
      if (!kept.isEmpty()) {
        stimulus.append(kept).append("\n\n");
      }
    }
  }
}

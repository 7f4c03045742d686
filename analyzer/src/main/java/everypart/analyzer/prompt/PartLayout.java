package everypart.analyzer.prompt;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Finds the labels of parts and how they nest.
 *
 * <p>A label counts when it goes on from the one before it in its own style ("(b)" behind "(a)"),
 * or when it is the first of a style that is not yet open ("(i)" inside "(b)"). Everything else
 * that looks like one ("G. lamblia", "Section 12.3", a question number before the stimulus) is
 * text.
 */
final class PartLayout {
  /** A labelled stretch: from its label to the next label of its own or an outer level. */
  static final class Node {
    final String label;
    final String style;
    final int labelStart;
    final int textStart;
    final List<Node> children = new ArrayList<>();
    int end;

    Node(String label, String style, int labelStart, int textStart) {
      this.label = label;
      this.style = style;
      this.labelStart = labelStart;
      this.textStart = textStart;
      this.end = textStart;
    }
  }

  private record PossibleLabel(int start, int end, String label, String shape, boolean inline) {}

  private record LabelValue(String style, int value) {}

  private static final class OpenLabel {
    final String style;
    final Node owner;
    int last;

    OpenLabel(String style, Node owner, int first) {
      this.style = style;
      this.owner = owner;
      this.last = first;
    }
  }

  private static final String NAME = "([A-Za-z]|[ivxIVX]{2,5}|\\d{1,2})";
  private static final Pattern LINE_START = Pattern.compile("(?m)^[ \\t>]*");
  private static final Pattern WORD_LABEL =
      Pattern.compile(
          "(?i:part|question|section|task|problem|exercise|q)\\.?[ \\t]*[(]?"
              + NAME
              + "[)]?(?:[ \\t]*[.:)\u2013\u2014-](?=\\s|$)|(?=[ \\t]*(?:\\n|$))|(?=[ \\t]*\\()|(?=[ \\t]+\\p{Lu}))");
  private static final Pattern BRACKETED = Pattern.compile("[(\\[]" + NAME + "[)\\]](?=\\s|$|\\()");
  private static final Pattern HALF = Pattern.compile(NAME + "\\)(?=\\s|$)");
  private static final Pattern DOTTED = Pattern.compile(NAME + "[.:](?=\\s|$|\\()");
  private static final Pattern BARE =
      Pattern.compile("(\\d{1,2})(?=[ \\t]*\\((?:[a-z]|[ivx]{1,4})\\))");
  private static final Pattern FUSED = Pattern.compile("(\\d{1,2})(?=[a-h][).:]\\s)");
  private static final Pattern SPACED =
      Pattern.compile("([A-H]|\\d{1,2})(?=(?: {2,}|[ ]*\\t[ \\t]*)\\p{Lu}\\p{L}*[ ,])");
  private static final Pattern DECIMAL =
      Pattern.compile("(\\d{1,2}\\.\\d{1,2})(?=[.)]?[ \\t]+\\p{Lu})[.)]?");
  private static final Map<String, Pattern> SHAPES =
      new TreeMap<>(
          Map.of(
              "0 decimal", DECIMAL,
              "7 plain", SPACED,
              "1 word", WORD_LABEL,
              "2 bracket", BRACKETED,
              "3 bracket", HALF,
              "4 plain", DOTTED,
              "5 plain", BARE,
              "6 plain", FUSED));
  private static final Pattern INLINE =
      Pattern.compile("(?<=[\\s,;:])\\(([a-z]|[ivx]{2,4}|\\d{1,2})\\)(?=\\s+\\S)");
  private static final Pattern BLANK_LINE = Pattern.compile("\\n[ \\t]*\\n");
  private static final Map<Character, Integer> ROMAN = Map.of('i', 1, 'v', 5, 'x', 10);

  private PartLayout() {}

  /** Returns the outermost labelled stretches, in order; empty when there are no labels. */
  static List<Node> of(PlainWording wording) {
    List<PossibleLabel> candidates = candidates(wording);
    Node root = new Node("", "", 0, 0);
    Deque<OpenLabel> open = new ArrayDeque<>();
    for (int i = 0; i < candidates.size(); i++) {
      PossibleLabel candidate = candidates.get(i);
      place(candidate, candidates.subList(i + 1, candidates.size()), root, open);
    }
    close(root, wording.text().length());
    prune(root);
    return root.children;
  }

  private static void place(
      PossibleLabel candidate, List<PossibleLabel> rest, Node root, Deque<OpenLabel> open) {
    List<LabelValue> readings = readings(candidate);
    for (Iterator<OpenLabel> levels = open.iterator(); levels.hasNext(); ) {
      OpenLabel level = levels.next();
      for (LabelValue reading : readings) {
        if (!reading.style().equals(level.style)) {
          continue;
        }
        if (reading.value() == level.last && !candidate.shape().equals("bracket")) {
          return; // "1 (a)", then "1 (b)": the same question again
        }
        int step = reading.value() - level.last;
        if (step == 1
            || (step == 2 && !candidate.inline() && !follows(reading, rest, level.last + 1))) {
          while (open.peek() != level) {
            open.pop();
          }
          level.last = reading.value();
          add(level.owner, candidate, reading);
          return;
        }
      }
    }
    for (LabelValue reading : readings) {
      boolean known = open.stream().anyMatch(level -> level.style.equals(reading.style()));
      boolean first = reading.value() == 1;
      boolean late = open.isEmpty() && !first && follows(reading, rest, reading.value() + 1);
      if (!known && (first || late)) {
        Node owner = root;
        OpenLabel inner = open.peek();
        if (inner != null) {
          owner = inner.owner.children.get(inner.owner.children.size() - 1);
        }
        open.push(new OpenLabel(reading.style(), owner, reading.value()));
        add(owner, candidate, reading);
        return;
      }
    }
  }

  private static boolean follows(LabelValue reading, List<PossibleLabel> rest, int value) {
    for (PossibleLabel candidate : rest.subList(0, Math.min(rest.size(), 30))) {
      for (LabelValue other : readings(candidate)) {
        if (other.style().equals(reading.style()) && other.value() == value) {
          return true;
        }
      }
    }
    return false;
  }

  private static void add(Node owner, PossibleLabel candidate, LabelValue reading) {
    Node node =
        new Node(
            candidate.label().toLowerCase(Locale.ROOT),
            reading.style(),
            candidate.start(),
            candidate.end());
    owner.children.add(node);
  }

  private static void close(Node node, int end) {
    node.end = end;
    for (int i = 0; i < node.children.size(); i++) {
      close(
          node.children.get(i),
          i + 1 < node.children.size() ? node.children.get(i + 1).labelStart : end);
    }
  }

  /** A lone "1." or "Question 1" is a number or a heading and no part; its parts move up. */
  private static void prune(Node node) {
    for (Node child : node.children) {
      prune(child);
    }
    if (node.children.size() == 1) {
      Node only = node.children.get(0);
      if (!only.children.isEmpty()) {
        List<Node> inner = List.copyOf(only.children);
        node.children.clear();
        node.children.addAll(inner);
      } else if (!only.style.startsWith("bracket")) {
        node.children.clear();
      }
    }
  }

  private static List<PossibleLabel> candidates(PlainWording wording) {
    String text = wording.text();
    TreeMap<Integer, PossibleLabel> found = new TreeMap<>();
    Matcher line = LINE_START.matcher(text);
    while (line.find()) {
      int at = line.end();
      if (at < text.length() && wording.quiet().get(at)) {
        continue;
      }
      PossibleLabel label = labelAt(text, at);
      while (label != null) {
        found.put(label.start(), label);
        at = label.end();
        while (at < text.length() && (text.charAt(at) == ' ' || text.charAt(at) == '\t')) {
          at++;
        }
        label = labelAt(text, at);
      }
    }
    addInline(wording, found);
    return List.copyOf(found.values());
  }

  private static @Nullable PossibleLabel labelAt(String text, int at) {
    for (Map.Entry<String, Pattern> shape : SHAPES.entrySet()) {
      Matcher matcher = shape.getValue().matcher(text).region(at, text.length());
      matcher.useTransparentBounds(true);
      if (matcher.lookingAt()) {
        return new PossibleLabel(
            at, matcher.end(), matcher.group(1), shape.getKey().substring(2), false);
      }
    }
    return null;
  }

  /** Labels inside a line count only in a run: "(1) ... (2) ..." in one paragraph. */
  private static void addInline(PlainWording wording, NavigableMap<Integer, PossibleLabel> found) {
    String text = wording.text();
    List<PossibleLabel> run = new ArrayList<>();
    Matcher matcher = INLINE.matcher(text);
    while (matcher.find()) {
      if (found.containsKey(matcher.start()) || wording.quiet().get(matcher.start())) {
        continue;
      }
      PossibleLabel candidate =
          new PossibleLabel(matcher.start(), matcher.end(), matcher.group(1), "bracket", true);
      if (!run.isEmpty() && continues(run.get(run.size() - 1), candidate, text)) {
        run.add(candidate);
      } else {
        keep(run, found);
        run.clear();
        if (readings(candidate).stream().anyMatch(reading -> reading.value() == 1)) {
          run.add(candidate);
        }
      }
    }
    keep(run, found);
  }

  private static void keep(List<PossibleLabel> run, NavigableMap<Integer, PossibleLabel> found) {
    if (run.size() > 1 || (run.size() == 1 && opensList(run.get(0), found))) {
      run.forEach(candidate -> found.put(candidate.start(), candidate));
    }
  }

  /** A first item inside a line whose second one stands at the start of a line. */
  private static boolean opensList(
      PossibleLabel first, NavigableMap<Integer, PossibleLabel> found) {
    Map.Entry<Integer, PossibleLabel> next = found.higherEntry(first.start());
    return next != null && stepsOn(first, next.getValue());
  }

  private static boolean continues(PossibleLabel before, PossibleLabel after, String text) {
    return stepsOn(before, after)
        && !BLANK_LINE.matcher(text.substring(before.end(), after.start())).find();
  }

  private static boolean stepsOn(PossibleLabel before, PossibleLabel after) {
    for (LabelValue one : readings(before)) {
      for (LabelValue other : readings(after)) {
        if (one.style().equals(other.style()) && other.value() == one.value() + 1) {
          return true;
        }
      }
    }
    return false;
  }

  private static List<LabelValue> readings(PossibleLabel candidate) {
    String label = candidate.label();
    List<LabelValue> readings = new ArrayList<>();
    String shape = candidate.shape();
    int dot = label.indexOf('.');
    if (dot > 0) {
      readings.add(
          new LabelValue(
              "decimal " + label.substring(0, dot), Integer.parseInt(label.substring(dot + 1))));
      return readings;
    }
    if (Character.isDigit(label.charAt(0))) {
      String family = shape.equals("word") ? "plain" : shape;
      readings.add(new LabelValue(family + " figure", Integer.parseInt(label)));
      return readings;
    }
    String letters = Character.isUpperCase(label.charAt(0)) ? "capital" : "small";
    int roman = roman(label.toLowerCase(Locale.ROOT));
    if (label.length() == 1) {
      readings.add(
          new LabelValue(shape + " " + letters, Character.toLowerCase(label.charAt(0)) - 'a' + 1));
    }
    if (roman > 0) {
      readings.add(new LabelValue(shape + " roman " + letters, roman));
    }
    return readings;
  }

  /** Returns the value of a Roman number up to 39 in lower case, 0 when it is none. */
  private static int roman(String label) {
    int sum = 0;
    for (int i = 0; i < label.length(); i++) {
      Integer value = ROMAN.get(label.charAt(i));
      if (value == null) {
        return 0;
      }
      Integer next = i + 1 < label.length() ? ROMAN.get(label.charAt(i + 1)) : Integer.valueOf(0);
      sum += next != null && next > value ? -value : value;
    }
    return sum;
  }
}

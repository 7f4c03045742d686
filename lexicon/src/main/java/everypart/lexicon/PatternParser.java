package everypart.lexicon;

import everypart.lexicon.PatternPiece.Check;
import everypart.lexicon.PatternPiece.Gap;
import everypart.lexicon.PatternPiece.Mark;
import everypart.lexicon.PatternPiece.NoneAfter;
import everypart.lexicon.PatternPiece.NoneBefore;
import everypart.lexicon.PatternPiece.Slot;
import everypart.lexicon.PatternPiece.Start;
import everypart.lexicon.PatternPiece.Word;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads the pattern language of cue lists. The language is described at the top of {@code
 * cues.yaml}.
 */
final class PatternParser {
  private static final Pattern SPACE = Pattern.compile("\\s+");
  private static final Pattern NONE_OF = Pattern.compile("!\\.\\.([0-9]{1,2})(.+)");
  private static final Pattern BETWEEN_ALTERNATIVES = Pattern.compile("/");

  private final Map<String, WordCondition> sets;

  PatternParser(Map<String, WordCondition> sets) {
    this.sets = sets;
  }

  /**
   * Returns the ways in which a pattern can be met: one for each choice of its optional words.
   *
   * @throws IllegalArgumentException saying what is wrong with the pattern
   */
  List<List<PatternPiece>> parse(String pattern) {
    List<List<PatternPiece>> ways = new ArrayList<>();
    ways.add(List.of());
    List<List<PatternPiece>> outside = null;
    String labelled = "";
    for (String piece : SPACE.split(pattern.strip())) {
      String rest = piece;
      if (rest.startsWith("[")) {
        if (outside != null) {
          throw new IllegalArgumentException("a [ stands inside another");
        }
        outside = ways;
        rest = rest.substring(1);
      }
      boolean closesOption = rest.endsWith("]");
      if (closesOption) {
        rest = rest.substring(0, rest.length() - 1);
      }
      List<PatternPiece> added = new ArrayList<>();
      if (rest.startsWith("cause(") || rest.startsWith("effect(")) {
        if (!labelled.isEmpty()) {
          throw new IllegalArgumentException("a marked stretch stands inside another");
        }
        labelled = rest.substring(0, rest.indexOf('('));
        added.add(new Mark(labelled.equals("cause") ? Slot.CAUSE_FROM : Slot.EFFECT_FROM));
        rest = rest.substring(rest.indexOf('(') + 1);
      }
      boolean closesLabel = rest.endsWith(")");
      if (closesLabel) {
        rest = rest.substring(0, rest.length() - 1);
      }
      if (!rest.isEmpty()) {
        boolean begun = ways.get(0).stream().anyMatch(Word.class::isInstance);
        added.add(piece(rest, begun));
      } else if (added.isEmpty() && !closesLabel) {
        throw new IllegalArgumentException("a bracket stands alone");
      }
      if (closesLabel) {
        if (labelled.isEmpty()) {
          throw new IllegalArgumentException("a ) closes nothing");
        }
        added.add(new Mark(labelled.equals("cause") ? Slot.CAUSE_TO : Slot.EFFECT_TO));
        labelled = "";
      }
      List<List<PatternPiece>> longer = new ArrayList<>();
      for (List<PatternPiece> way : ways) {
        List<PatternPiece> next = new ArrayList<>(way);
        next.addAll(added);
        longer.add(next);
      }
      ways = longer;
      if (closesOption) {
        if (outside == null) {
          throw new IllegalArgumentException("a ] closes nothing");
        }
        List<List<PatternPiece>> both = new ArrayList<>(ways);
        both.addAll(outside);
        ways = both;
        outside = null;
      }
    }
    if (outside != null) {
      throw new IllegalArgumentException("a [ is not closed");
    }
    if (!labelled.isEmpty()) {
      throw new IllegalArgumentException("\"" + labelled + "(\" is not closed");
    }
    for (List<PatternPiece> way : ways) {
      check(way);
    }
    return ways;
  }

  private static void check(List<PatternPiece> way) {
    PatternPiece first =
        way.stream()
            .filter(p -> p instanceof Word || p instanceof Gap)
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("the pattern takes no word"));
    int begin = way.indexOf(first);
    if (way.stream().skip(begin).anyMatch(Start.class::isInstance)) {
      throw new IllegalArgumentException("^ may stand before the first word only");
    }
    if (first instanceof Gap || way.get(way.size() - 1) instanceof Gap) {
      throw new IllegalArgumentException("a gap may stand between two words only");
    }
  }

  private PatternPiece piece(String text, boolean begun) {
    if (text.equals("^") || text.equals("^^")) {
      return new Start(text.length() == 2);
    }
    Matcher none = NONE_OF.matcher(text);
    if (none.matches()) {
      int most = Integer.parseInt(none.group(1));
      WordCondition test = test(none.group(2));
      return begun ? new NoneAfter(most, test) : new NoneBefore(most, test);
    }
    if (text.startsWith("..") && text.length() > 2) {
      try {
        int most = Integer.parseInt(text.substring(2));
        if (most < 1 || most > 15) {
          throw new IllegalArgumentException("a gap takes 1 to 15 words, not " + most);
        }
        return new Gap(most);
      } catch (NumberFormatException e) {
        throw new IllegalArgumentException("\"" + text + "\" is no gap; write ..4", e);
      }
    }
    if (text.length() > 1 && text.charAt(0) == '!') {
      return new Check(test(text.substring(1)), false);
    }
    if (text.length() > 1 && text.charAt(0) == '=') {
      return new Check(test(text.substring(1)), true);
    }
    return new Word(test(text));
  }

  /** Returns what a word, or several with slashes between, accepts. */
  WordCondition test(String text) {
    Set<String> forms = new HashSet<>();
    Set<WordShape> shapes = new HashSet<>();
    for (String word : BETWEEN_ALTERNATIVES.split(text, -1)) {
      if (word.isEmpty()) {
        throw new IllegalArgumentException("an alternative is empty in \"" + text + "\"");
      } else if (word.startsWith("{")) {
        String name = word.replaceAll("[{}]", "");
        WordCondition set = sets.get(name);
        if (set == null) {
          throw new IllegalArgumentException("there is no word set {" + name + "}");
        }
        forms.addAll(set.forms());
        shapes.addAll(set.shapes());
      } else if (word.startsWith("@")) {
        shapes.add(shape(word.substring(1)));
      } else if (word.endsWith("+")) {
        forms.addAll(Inflections.of(word.substring(0, word.length() - 1)));
      } else {
        forms.add(word);
      }
    }
    return new WordCondition(forms, shapes);
  }

  private static WordShape shape(String word) {
    for (WordShape shape : WordShape.values()) {
      if (shape.word().equals(word)) {
        return shape;
      }
    }
    throw new IllegalArgumentException("there is no word shape @" + word);
  }
}

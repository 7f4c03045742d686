package everypart.analyzer.assign;

import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.lexicon.Language;
import everypart.lexicon.TaskVerbs;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The labels of a prompt's parts and the ways in which a writer may put them.
 *
 * <p>"b.ii" is written "b ii", "b(ii)" or, below "b", "(ii)"; "b" alone names all that is below it;
 * "1.a" is written "1a" or "1 (a)", and "(a)" alone where no other question has an "a". Where a
 * prompt counts in letters a writer may count in figures, and the other way round: those are
 * stand-ins, taken only when no label of the prompt's own is there.
 */
final class Labels {
  private static final List<String> ROMAN =
      List.of("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x");

  /** How a letter sounds, as a machine that takes dictation may write it. */
  private static final Map<String, String> HEARD = heard();

  /**
   * A sentence of the prompt with fewer words is not taken for a copied question: a writer may have
   * come to the same words alone. Chosen by eye.
   */
  private static final int SHORTEST_HEADING = 4;

  private final List<String> parts;
  private final Map<String, String> wordings = new HashMap<>();
  private final Map<String, List<String>> own = new HashMap<>();
  private final Map<String, String> standIns = new HashMap<>();
  private final Map<String, Map<String, String>> below = new HashMap<>();

  private final TaskVerbs verbs;

  private static Map<String, String> heard() {
    Map<String, String> heard = new HashMap<>();
    for (String letter : List.of("b", "c", "d")) {
      Language.english().list("sounds_like_" + letter).forEach(word -> heard.put(word, letter));
    }
    return Map.copyOf(heard);
  }

  Labels(Prompt prompt, TaskVerbs verbs) {
    this.verbs = verbs;
    parts = prompt.parts().stream().map(Part::label).toList();
    readWordings(prompt);
    Map<String, List<String>> byLast = new LinkedHashMap<>();
    Map<String, List<String>> allBelow = new LinkedHashMap<>();
    for (String label : parts) {
      own.put(squeeze(label), List.of(label));
      int dot = label.lastIndexOf('.');
      String last = label.substring(dot + 1);
      byLast.computeIfAbsent(last, key -> new ArrayList<>()).add(label);
      if (dot > 0) {
        String parent = label.substring(0, dot);
        allBelow.computeIfAbsent(squeeze(parent), key -> new ArrayList<>()).add(label);
        below.computeIfAbsent(parent, key -> new HashMap<>()).put(last, label);
      }
    }
    allBelow.forEach(own::putIfAbsent);
    byLast.forEach(
        (last, labels) -> {
          if (labels.size() == 1) {
            own.putIfAbsent(last, labels);
          }
        });
    for (int i = 0; i < parts.size(); i++) {
      String label = parts.get(i);
      if (label.contains(".")) {
        continue;
      }
      for (String other :
          List.of(
              Integer.toString(i + 1),
              String.valueOf((char) ('a' + Math.min(i, 25))),
              i < ROMAN.size() ? ROMAN.get(i) : "-")) {
        if (!own.containsKey(other)) {
          standIns.putIfAbsent(other, label);
        }
      }
    }
  }

  /** Reads the sentences by which a copied question is known; none that two parts share. */
  private void readWordings(Prompt prompt) {
    Set<String> shared = new HashSet<>();
    for (Part part : prompt.parts()) {
      List<String> sentences = new ArrayList<>(List.of(part.text().split("(?<=[.?!:])\\s+", -1)));
      sentences.add(part.text());
      for (String sentence : sentences) {
        String words = words(sentence);
        String other = wordings.putIfAbsent(words, part.label());
        if (words.split(" ", -1).length < SHORTEST_HEADING
            || (other != null && !other.equals(part.label()))) {
          shared.add(words);
        }
      }
    }
    wordings.keySet().removeAll(shared);
  }

  /** Returns the part whose question is copied word for word, "Q:" before it or not. */
  Optional<String> asked(String sentence) {
    String words = words(sentence);
    return Optional.ofNullable(wordings.get(words))
        .or(() -> Optional.ofNullable(wordings.get(words.replaceFirst("^q(?:uestion)? ", ""))));
  }

  private static String words(String text) {
    return text.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", " ").strip();
  }

  /** Returns the words of a list of the lexicon. */
  List<String> list(String name) {
    return verbs.list(name);
  }

  /** Tells whether a list of the lexicon holds a word, in whatever case it is written. */
  boolean isIn(String list, String word) {
    return verbs.isIn(list, word.toLowerCase(Locale.ROOT));
  }

  /** Returns the labels of all parts, in the prompt's order. */
  List<String> parts() {
    return parts;
  }

  /** Returns the place of a part in the prompt's order. */
  int place(String part) {
    return parts.indexOf(part);
  }

  /** Returns the parts that a written label names, in the prompt's own way of counting. */
  List<String> own(String written) {
    String squeezed = squeeze(written);
    // "3a" names the part "a" of the third question, where the prompt does not count questions.
    String bare = squeezed.replaceFirst("^\\d{1,2}(?=\\p{L})", "");
    // "aa)" is a slip for "a)".
    String once = squeezed.replaceFirst("^(\\p{L})\\1$", "$1");
    for (String one : List.of(squeezed, bare, once)) {
      List<String> named = own.get(one);
      if (named != null) {
        return named;
      }
    }
    return List.of();
  }

  /** Returns the part that a written label names in another way of counting. */
  Optional<String> standIn(String written) {
    return Optional.ofNullable(standIns.get(squeeze(written)));
  }

  /** Returns the part that a place in the prompt names: 0 is the first, -1 the last. */
  Optional<String> at(int place) {
    if (place < 0) {
      return Optional.of(parts.get(parts.size() - 1));
    }
    String number = Integer.toString(place + 1);
    List<String> named = own(number);
    return named.isEmpty() ? standIn(number) : Optional.of(named.get(0));
  }

  /** Returns the sub-part that a written label names below the part that was named last. */
  Optional<String> below(String lastPart, String written) {
    for (String parent = lastPart; ; parent = parent.substring(0, parent.lastIndexOf('.'))) {
      String found = below.getOrDefault(parent, Map.of()).get(squeeze(written));
      if (found != null || parent.lastIndexOf('.') < 0) {
        return Optional.ofNullable(found);
      }
    }
  }

  /** Tells whether what is written looks like a label of the kind this prompt uses, but of none. */
  boolean isForeign(String written) {
    String squeezed = squeeze(written);
    return squeezed.length() == 1
        && own(squeezed).isEmpty()
        && standIn(squeezed).isEmpty()
        && parts.stream().anyMatch(part -> sameKind(part.charAt(0), squeezed.charAt(0)));
  }

  private static boolean sameKind(char one, char other) {
    return Character.isDigit(one) == Character.isDigit(other);
  }

  /** Returns a label as it is written, for one that is spelled out as a number or heard. */
  String spelled(String word) {
    String small = word.toLowerCase(Locale.ROOT);
    int number = list("numberWord").indexOf(small);
    return number >= 0 ? Integer.toString(number + 1) : HEARD.getOrDefault(small, word);
  }

  /** Returns the place that an ordinal number names, from 0; -1 for the last. */
  int ordinal(String word) {
    String small = word.toLowerCase(Locale.ROOT);
    if (Character.isDigit(small.charAt(0))) {
      return Integer.parseInt(small.replaceAll("\\D", "")) - 1;
    }
    return list("ordinal").indexOf(small);
  }

  static String squeeze(String label) {
    StringBuilder kept = new StringBuilder();
    label
        .toLowerCase(Locale.ROOT)
        .chars()
        .filter(Character::isLetterOrDigit)
        .forEach(c -> kept.append((char) c));
    return kept.toString();
  }
}

package everypart.analyzer.assign;

import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The labels of a prompt's parts and the ways in which a writer may put them.
 *
 * <p>"b.ii" is written "b ii", "b(ii)" or, below "b", "(ii)"; "1.a" is written "1a" or "1 (a)", and
 * "(a)" alone where no other question has an "a". Where a prompt counts in letters a writer may
 * count in figures, and the other way round: those are stand-ins, taken only when no label of the
 * prompt's own is there.
 */
final class Labels {
  private static final List<String> ROMAN =
      List.of("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x");

  private final List<String> parts;
  private final Map<String, String> own = new HashMap<>();
  private final Map<String, String> standIns = new HashMap<>();
  private final Map<String, Map<String, String>> below = new HashMap<>();

  Labels(Prompt prompt) {
    parts = prompt.parts().stream().map(Part::label).toList();
    Map<String, List<String>> byLast = new LinkedHashMap<>();
    Map<String, String> firstBelow = new HashMap<>();
    for (String label : parts) {
      own.put(squeeze(label), label);
      int dot = label.lastIndexOf('.');
      String last = label.substring(dot + 1);
      byLast.computeIfAbsent(last, key -> new ArrayList<>()).add(label);
      if (dot > 0) {
        String parent = label.substring(0, dot);
        firstBelow.putIfAbsent(squeeze(parent), label);
        below.computeIfAbsent(parent, key -> new HashMap<>()).put(last, label);
      }
    }
    firstBelow.forEach(own::putIfAbsent);
    byLast.forEach(
        (last, labels) -> {
          if (labels.size() == 1) {
            own.putIfAbsent(last, labels.get(0));
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

  /** Returns the labels of all parts, in the prompt's order. */
  List<String> parts() {
    return parts;
  }

  /** Returns the part that a written label names, in the prompt's own way of counting. */
  Optional<String> own(String written) {
    String squeezed = squeeze(written);
    // "3a" names the part "a" of the third question, where the prompt does not count questions.
    String bare = squeezed.replaceFirst("^\\d{1,2}(?=\\p{L})", "");
    return Optional.ofNullable(own.getOrDefault(squeezed, own.get(bare)));
  }

  /** Returns the part that a written label names in another way of counting. */
  Optional<String> standIn(String written) {
    return Optional.ofNullable(standIns.get(squeeze(written)));
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

  private static String squeeze(String label) {
    StringBuilder kept = new StringBuilder();
    label
        .toLowerCase(Locale.ROOT)
        .chars()
        .filter(Character::isLetterOrDigit)
        .forEach(c -> kept.append((char) c));
    return kept.toString();
  }

  /** Words before "part b" that make it a mention and no label. */
  static final Set<String> MENTION =
      Set.of(
          "in", "of", "from", "see", "like", "to", "as", "on", "by", "with", "than", "the", "about",
          "into", "each", "every", "using", "or", "my", "at");
}

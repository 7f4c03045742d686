package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Token;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Finds, for each part that got no text, the sentence that came closest to it, and says why that
 * sentence was given to another part or to none.
 */
final class NearestFinder {
  /** So many shared words are named. */
  private static final int MOST_NAMED = 3;

  private final List<String> labels;
  private final List<PartProfile> parts;

  NearestFinder(List<String> labels, List<PartProfile> parts) {
    this.labels = labels;
    this.parts = parts;
  }

  /**
   * Returns the nearest sentences, in the order of the parts.
   *
   * @param matches for each stretch and part, what speaks for the part in its words
   * @param labelled for each stretch, the parts whose label it stands under
   */
  List<Nearest> find(double[][] matches, List<Stretch> stretches, List<List<String>> labelled) {
    Set<String> taken = new HashSet<>();
    stretches.forEach(stretch -> stretch.part().ifPresent(taken::add));
    if (taken.size() == labels.size()) {
      return List.of();
    }
    double[] most = new double[labels.size()];
    int[] at = new int[labels.size()];
    for (int i = 0; i < stretches.size(); i++) {
      double[] likeness = matches[i];
      for (int p = 0; p < likeness.length; p++) {
        if (likeness[p] > most[p]) {
          most[p] = likeness[p];
          at[p] = i;
        }
      }
    }
    List<Nearest> nearest = new ArrayList<>();
    for (int p = 0; p < labels.size(); p++) {
      if (taken.contains(labels.get(p)) || most[p] == 0) {
        continue;
      }
      Stretch stretch = stretches.get(at[p]);
      List<String> shared = shared(stretch.sentence(), parts.get(p));
      if (!shared.isEmpty()) {
        nearest.add(
            new Nearest(
                labels.get(p),
                stretch.sentence(),
                Sayings.of(
                    "nearest",
                    shared.stream()
                        .map(word -> Sayings.of("nearest.word", word))
                        .collect(Collectors.joining(", ")),
                    labels.get(p),
                    instead(matches[at[p]], stretch, labelled.get(at[p]), most[p]))));
      }
    }
    return nearest;
  }

  private String instead(double[] match, Stretch stretch, List<String> label, double likeness) {
    if (!label.isEmpty()) {
      return Sayings.of(
          "nearest.label",
          label.stream().reduce((one, next) -> Sayings.of("both", one, next)).orElse(""));
    }
    if (stretch.part().isEmpty()) {
      return Sayings.of("nearest.little");
    }
    String part = stretch.part().get();
    double here = match[labels.indexOf(part)];
    return Sayings.of(here > likeness ? "nearest.fits" : "nearest.place", part);
  }

  /** Returns the writer's words that the part's wording shares, those that tell most first. */
  private static List<String> shared(Sentence sentence, PartProfile part) {
    Map<String, Double> weights = new LinkedHashMap<>();
    Map<String, String> forms = new LinkedHashMap<>();
    for (Token token : sentence.tokens()) {
      double weight = part.words().getOrDefault(token.stem(), 0.0);
      if (weight > 0) {
        weights.putIfAbsent(token.stem(), weight);
        forms.putIfAbsent(token.stem(), token.form());
      }
    }
    return weights.entrySet().stream()
        .sorted(Map.Entry.comparingByValue(Comparator.reverseOrder()))
        .limit(MOST_NAMED)
        .map(entry -> forms.getOrDefault(entry.getKey(), entry.getKey()))
        .toList();
  }
}

package everypart.analyzer.assign;

import everypart.analyzer.meaning.SentenceMeaning;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.TextReader;
import java.util.ArrayList;
import java.util.List;

/**
 * How near a sentence is in meaning to each part of a prompt: the cosine of their vectors. A part
 * is its wording and, where the author gives one, its model answer sentence by sentence.
 */
final class MeaningMatch {
  private final SentenceMeaning meaning;
  private final List<List<float[]>> parts = new ArrayList<>();

  MeaningMatch(SentenceMeaning meaning, Prompt prompt, TextReader texts) {
    this.meaning = meaning;
    prompt
        .parts()
        .forEach(
            part -> {
              List<float[]> vectors = new ArrayList<>();
              vectors.add(meaning.vector(part.text()));
              part.modelAnswer()
                  .ifPresent(
                      answer ->
                          texts
                              .read(answer)
                              .sentences()
                              .forEach(
                                  sentence ->
                                      vectors.add(meaning.vector(sentence.span().of(answer)))));
              parts.add(List.copyOf(vectors));
            });
  }

  /** Returns the nearness of a sentence to each part, from -1 to 1. */
  double[] of(String raw, Sentence sentence) {
    float[] vector = meaning.vector(sentence.span().of(raw));
    double[] nearness = new double[parts.size()];
    for (int p = 0; p < nearness.length; p++) {
      double best = -1;
      for (float[] part : parts.get(p)) {
        best = Math.max(best, dot(vector, part));
      }
      nearness[p] = best;
    }
    return nearness;
  }

  private static double dot(float[] one, float[] other) {
    double sum = 0;
    for (int i = 0; i < one.length; i++) {
      sum += (double) one[i] * other[i];
    }
    return sum;
  }
}

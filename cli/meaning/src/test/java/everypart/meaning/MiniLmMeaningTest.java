package everypart.meaning;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class MiniLmMeaningTest {
  /**
   * Pairs of sentences, from the same meaning (5) to different subjects (0).
   *
   * <p>Source: Cer et al. 2017, "SemEval-2017 Task 1: Semantic Textual Similarity", table 1, quoted
   * from memory.
   */
  private static final List<Pair> PUBLISHED =
      List.of(
          new Pair(
              5,
              "The bird is bathing in the sink.",
              "Birdie is washing itself in the water basin."),
          new Pair(
              4,
              "Two boys on a couch are playing video games.",
              "Two boys are playing a video game."),
          new Pair(2, "They flew out of the nest in groups.", "They flew into the nest together."),
          new Pair(
              1,
              "The woman is playing the violin.",
              "The young lady enjoys listening to the guitar."),
          new Pair(
              0,
              "The black dog is running through the snow.",
              "A race car driver is driving his car through the mud."));

  private static MiniLmMeaning model;

  private record Pair(int score, String one, String other) {
    double nearness() {
      return dot(model.vector(one), model.vector(other));
    }
  }

  @BeforeAll
  static void open() throws IOException {
    model = new MiniLmMeaning();
  }

  private static double dot(float[] one, float[] other) {
    double sum = 0;
    for (int i = 0; i < one.length; i++) {
      sum += (double) one[i] * other[i];
    }
    return sum;
  }

  @Test
  void vectorsHaveLengthOneAndTheModelsDimensions() {
    for (String sentence : List.of("", "The lamp went out.", "word ".repeat(2000))) {
      float[] vector = model.vector(sentence);
      assertEquals(384, vector.length);
      assertEquals(1, dot(vector, vector), 1e-6);
    }
  }

  @Test
  void pairsOfOneMeaningAreNearerThanPairsOfDifferentSubjects() {
    double least = 1;
    double most = -1;
    for (Pair pair : PUBLISHED) {
      if (pair.score() >= 4) {
        least = Math.min(least, pair.nearness());
      } else if (pair.score() <= 1) {
        most = Math.max(most, pair.nearness());
      }
    }
    assertTrue(least > most + 0.2, "least " + least + ", most " + most);
  }

  @Test
  void aParaphraseWithoutASharedContentWordIsNearerThanAnUnrelatedSentence() {
    // Our own sentences; that a model of meaning must do this is common practice, no source.
    String question = "Why does the harbour freeze over in winter?";
    double answer = dot(model.vector(question), model.vector("Cold weather turns the bay to ice."));
    double other = dot(model.vector(question), model.vector("The lantern keeper sells oil."));
    assertTrue(answer > other + 0.2, "answer " + answer + ", other " + other);
  }

  @Test
  void aSentenceHasOneVectorInEveryThreadAndCompany() throws Exception {
    List<String> sentences = new ArrayList<>();
    PUBLISHED.forEach(
        pair -> {
          sentences.add(pair.one());
          sentences.add(pair.other());
        });
    List<float[]> alone = sentences.stream().map(model::vector).toList();
    List<Integer> order = new ArrayList<>();
    for (int round = 0; round < 20; round++) {
      for (int i = 0; i < sentences.size(); i++) {
        order.add(i);
      }
    }
    Collections.shuffle(order, new Random(3));
    ExecutorService threads = Executors.newFixedThreadPool(4);
    try {
      List<Future<float[]>> together = new ArrayList<>();
      for (int i : order) {
        together.add(threads.submit(() -> model.vector(sentences.get(i))));
      }
      for (int k = 0; k < order.size(); k++) {
        assertArrayEquals(alone.get(order.get(k)), together.get(k).get());
      }
    } finally {
      threads.shutdownNow();
    }
    MiniLmMeaning second = new MiniLmMeaning();
    for (int i = 0; i < sentences.size(); i++) {
      assertArrayEquals(alone.get(i), second.vector(sentences.get(i)));
    }
  }
}

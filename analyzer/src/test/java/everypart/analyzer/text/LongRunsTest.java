package everypart.analyzer.text;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import opennlp.tools.sentdetect.SentenceDetectorME;
import opennlp.tools.sentdetect.SentenceModel;
import org.junit.jupiter.api.Test;

class LongRunsTest {
  @Test
  void leavesOrdinaryTextAlone() {
    String text = "The tide turns twice a day. ".repeat(200);
    assertSame(text, new LongRuns(text).shortened());
  }

  @Test
  void keepsBothEndsAndTheLastStop() {
    String text = "It is " + "x".repeat(5_000) + ".1" + "y".repeat(5_000) + " wide.";
    LongRuns runs = new LongRuns(text);
    String shortened = runs.shortened();
    assertEquals(
        "It is "
            + "x".repeat(200)
            + ".1"
            + "y".repeat(LongRuns.KEPT - 2 + LongRuns.KEPT)
            + " wide.",
        shortened);
    for (int place = 0; place < shortened.length(); place++) {
      assertEquals(shortened.charAt(place), text.charAt(runs.original(place)));
    }
    assertEquals(text.length(), runs.original(shortened.length()));
  }

  /** The detector itself, given the whole text, is the outside source. */
  @Test
  void changesNothingThatTheDetectorSays() throws IOException {
    SentenceDetectorME detector =
        new SentenceDetectorME(
            new SentenceModel(
                LongRunsTest.class.getResourceAsStream(
                    "/opennlp-en-ud-ewt-sentence-1.3-2.5.4.bin")));
    Random random = new Random(5);
    List<String> pieces =
        List.of("a", "Bc", ".", "!", "?", "word", "1", "...", "(", "'", "e.g.", "U.S.", ",");
    int split = 0;
    for (int i = 0; i < 300; i++) {
      StringBuilder text = new StringBuilder("The tide turned. ");
      for (int run = 0; run < 3; run++) {
        int length = 1_100 + random.nextInt(2_000);
        int stops = random.nextInt(pieces.size());
        while (length > 0) {
          String piece = pieces.get(random.nextInt(random.nextInt(40) == 0 ? pieces.size() : 2));
          piece = random.nextInt(500) == 0 ? pieces.get(stops) : piece;
          text.append(piece);
          length -= piece.length();
        }
        text.append(random.nextBoolean() ? ". The" : random.nextBoolean() ? "? it" : " and")
            .append(" water rose. ");
      }
      String whole = text.toString();
      LongRuns runs = new LongRuns(whole);
      assertTrue(runs.shortened().length() < whole.length());
      List<Span> said =
          Arrays.stream(detector.sentPosDetect(runs.shortened()))
              .map(span -> new Span(runs.original(span.getStart()), runs.original(span.getEnd())))
              .toList();
      List<Span> wanted =
          Arrays.stream(detector.sentPosDetect(whole))
              .map(span -> new Span(span.getStart(), span.getEnd()))
              .toList();
      assertEquals(wanted, said);
      split += said.size();
    }
    assertTrue(split > 1_000);
  }
}

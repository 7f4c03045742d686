package everypart.analyzer.judge;

import everypart.analyzer.assign.Bearing;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.lexicon.DemandKind;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Asks a reader how much each piece of a response bears on each demand, before anyone knows where
 * it belongs: the reader gets it as text that no part has. A part is borne on as much as the demand
 * of it that is borne on most.
 */
final class DemandBearing implements Bearing {
  /** A reader takes in only so much text at once; longer responses are read in stretches. */
  private static final int MOST_WORDS = 100;

  /** What is said of parts that no text can answer, and of pieces that were not read. */
  private static final double NOT_AT_ALL = -20;

  private final Answers answers;
  private final Optional<Reader> reader;

  /**
   * Makes it.
   *
   * @param reader is asked; where there is none, the small one is
   */
  DemandBearing(Answers answers, Optional<Reader> reader) {
    this.answers = answers;
    this.reader = reader;
  }

  @Override
  public boolean isSure() {
    return reader.isPresent();
  }

  @Override
  public double[][] of(Prompt prompt, List<String> pieces) {
    double[][] bears = new double[pieces.size()][prompt.parts().size()];
    for (double[] row : bears) {
      Arrays.fill(row, NOT_AT_ALL);
    }
    int from = 0;
    while (from < pieces.size()) {
      int to = from + 1;
      int words = SmallWords.in(pieces.get(from)).size();
      while (to < pieces.size()) {
        words += SmallWords.in(pieces.get(to)).size();
        if (words > MOST_WORDS) {
          break;
        }
        to++;
      }
      read(prompt, pieces.subList(from, to), bears, from);
      from = to;
    }
    return bears;
  }

  private void read(Prompt prompt, List<String> pieces, double[][] bears, int at) {
    Optional<SmallReader.Said> said =
        reader.isPresent() ? Optional.empty() : Optional.of(said(pieces));
    for (int p = 0; p < prompt.parts().size(); p++) {
      Part part = prompt.parts().get(p);
      if (part.demands().isEmpty()) {
        continue;
      }
      List<Reader.Opinion> small =
          said.map(
                  text ->
                      SmallReader.bundled()
                          .opinions(
                              answers.partWords(prompt, part).askedBySmallReader(prompt), text))
              .orElse(List.of());
      for (int place = 0; place < part.demands().size(); place++) {
        if (part.demands().get(place).kind() == DemandKind.REPRESENT) {
          continue;
        }
        int each = place;
        List<Double> evidence =
            reader
                .map(asked -> asked.read(DemandText.of(prompt, part, each), List.of(), pieces))
                .orElseGet(() -> small.get(each))
                .evidence();
        for (int i = 0; i < pieces.size(); i++) {
          bears[at + i][p] = Math.max(bears[at + i][p], evidence.get(i));
        }
      }
    }
  }

  /** Returns pieces as the small reader sees them, none of them any part's own. */
  private static SmallReader.Said said(List<String> pieces) {
    SmallReader small = SmallReader.bundled();
    return small.said(
        small.heard(pieces), List.of(), IntStream.range(0, pieces.size()).boxed().toList());
  }
}

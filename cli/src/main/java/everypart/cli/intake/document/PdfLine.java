package everypart.cli.intake.document;

import java.util.List;
import java.util.stream.Collectors;

/**
 * A line of a page of a PDF. Lengths are in points of the page; what is further down has the larger
 * number.
 *
 * @param runs its pieces from left to right, at least one
 * @param base where its letters stand
 * @param size how high its letters are, more than 0
 */
record PdfLine(List<Run> runs, float base, float size) {
  /**
   * Words that stand close to each other.
   *
   * @param left where they begin
   * @param right where they end
   * @param firstWord how wide the first of them is, with a blank
   */
  record Run(String text, float left, float right, float firstWord) {}

  PdfLine {
    runs = List.copyOf(runs);
    if (runs.isEmpty()) {
      throw new IllegalArgumentException("a line holds words");
    }
  }

  String text() {
    return runs.stream().map(Run::text).collect(Collectors.joining(" ")).strip();
  }

  float left() {
    return runs.get(0).left;
  }

  float right() {
    return runs.get(runs.size() - 1).right;
  }

  float firstWord() {
    return runs.get(0).firstWord;
  }
}

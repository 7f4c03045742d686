package everypart.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** A large class is written a result at a time: no piece of its page grows with the class. */
class ClassPageTest {
  private static final int STUDENTS = 10_000;

  /** A page that is not kept, but for its length and that of its longest piece. */
  private static final class Measured implements Appendable {
    private long length;
    private int longest;

    @Override
    public Measured append(CharSequence piece) {
      length += piece.length();
      longest = Math.max(longest, piece.length());
      return this;
    }

    @Override
    public Measured append(CharSequence piece, int from, int to) {
      return append(piece.subSequence(from, to));
    }

    @Override
    public Measured append(char one) {
      return append(String.valueOf(one));
    }
  }

  private static ScreenHtml page(int students) {
    ScreenHtml page = new ScreenHtml(List.of(Samples.prompt()));
    for (int i = 0; i < students; i++) {
      page.add(Samples.partly());
    }
    return page;
  }

  private static Measured measured(int students) throws IOException {
    Measured measured = new Measured();
    page(students).write(List.of(), Optional.empty(), measured);
    return measured;
  }

  @Test
  void noPieceGrowsWithTheClass() throws IOException {
    Measured few = measured(2);
    Measured many = measured(STUDENTS);
    assertTrue(many.length > few.length + STUDENTS * 100L, many.length + " characters");
    // The head says how many there are, so it may be longer by their figures.
    assertTrue(many.longest <= few.longest + 100, many.longest + " characters in one piece");
  }

  @Test
  void thePiecesAreThePage() throws IOException {
    StringBuilder written = new StringBuilder();
    page(3).write(List.of(), Optional.empty(), written);
    assertEquals(page(3).page(List.of()), written.toString());
  }
}

package everypart.cli.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;

/** What coders go by: what counts as addressed, by kind of demand, with examples. */
public final class Codebook {
  private Codebook() {}

  /** Returns the codebook as Markdown. */
  public static String text() {
    try (InputStream in =
        Objects.requireNonNull(Codebook.class.getResourceAsStream("codebook.md"))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

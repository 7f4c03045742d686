package everypart.cli.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

/** Reads the templates and styles that stand beside the renderers. */
final class Templates {
  private Templates() {}

  static String read(String name) {
    try (InputStream in = Templates.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("template " + name + " is not on the class path");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

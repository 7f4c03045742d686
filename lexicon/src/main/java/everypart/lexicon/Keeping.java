package everypart.lexicon;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.stream.Stream;

/**
 * The step of the build that keeps the bundled files as the program needs them, so that no start
 * has to read YAML or work out the forms of words. The program itself never runs it.
 */
public final class Keeping {
  private Keeping() {}

  /** Writes what is kept into the folder of compiled classes that is named. */
  public static void main(String[] arguments) throws IOException {
    Path folder = Path.of(arguments[0], "everypart", "lexicon");
    try (Stream<Path> files = Files.list(folder)) {
      // What an earlier build kept would be read in place of the files themselves.
      for (Path file : files.toList()) {
        if (file.toString().endsWith(".read") || file.toString().endsWith(".table")) {
          Files.delete(file);
        }
      }
    }
    for (Map.Entry<String, byte[]> file : Lexicon.kept().entrySet()) {
      Files.write(folder.resolve(file.getKey()), file.getValue());
    }
  }
}

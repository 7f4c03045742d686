package everypart.lexicon;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * The step of the build that keeps the bundled files as the program needs them, so that no start
 * has to read YAML or work out the forms of words. The program itself never runs it.
 */
public final class Keeping {
  private Keeping() {}

  /**
   * Writes what is kept.
   *
   * @param arguments the folder of compiled classes, then YAML files in it to keep as they are
   *     read; without any, the lexicon is kept
   */
  public static void main(String[] arguments) throws IOException {
    for (String name : List.of(arguments).subList(1, arguments.length)) {
      Path file = Path.of(arguments[0], name);
      Files.write(Path.of(file + YamlValue.READ), YamlValue.read(LexiconFile.at(file)).bytes());
    }
    if (arguments.length == 1) {
      keepLexicon(arguments[0]);
    }
  }

  private static void keepLexicon(String classes) throws IOException {
    Path folder = Path.of(classes, "everypart", "lexicon");
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

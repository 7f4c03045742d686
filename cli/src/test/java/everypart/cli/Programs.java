package everypart.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Programs of the machine that some tests need. */
public final class Programs {
  private Programs() {}

  /**
   * Returns the words that start a Java of its own with the classes of the tests, to which a test
   * adds what its program is given. Such a Java lives for a second or two, so it compiles lightly.
   *
   * @param options options of Java itself
   */
  public static List<String> java(Class<?> main, String... options) {
    List<String> words = new ArrayList<>();
    words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    words.addAll(List.of("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"));
    words.addAll(List.of(options));
    words.addAll(List.of("-cp", System.getProperty("java.class.path"), main.getName()));
    return words;
  }

  /** Tells whether a command line runs here and ends well; what it prints is dropped. */
  public static boolean run(List<String> words) {
    try {
      return new ProcessBuilder(words)
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start()
              .waitFor()
          == 0;
    } catch (IOException e) {
      return false;
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }
}

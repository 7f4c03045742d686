package everypart.cli;

import java.io.IOException;
import java.util.List;

/** Programs of the machine that some tests need. */
public final class Programs {
  private Programs() {}

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

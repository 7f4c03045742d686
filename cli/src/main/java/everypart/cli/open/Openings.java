package everypart.cli.open;

import java.io.IOException;
import java.util.List;
import java.util.Locale;

/** Opens a page in the browser that this system uses, and says so. */
public final class Openings {
  private Openings() {}

  /** Returns the line that tells where the page is. */
  public static String ready(String address) {
    return Sayings.of("open.ready", address);
  }

  /** Returns what is said when a browser was started. */
  public static String inBrowser() {
    return Sayings.of("open.ready.browser");
  }

  /** Returns what is said when no browser could be started. */
  public static String none(String address) {
    return Sayings.of("open.noBrowser", address);
  }

  /** Returns what is said when the last page was closed. */
  public static String stopped() {
    return Sayings.of("open.stopped");
  }

  /** Asks the system to open an address, and tells whether there was a way to. */
  public static boolean browser(String address) {
    String system = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
    List<String> call =
        system.contains("win")
            ? List.of("rundll32", "url.dll,FileProtocolHandler", address)
            : system.contains("mac") ? List.of("open", address) : List.of("xdg-open", address);
    try {
      new ProcessBuilder(call)
          .redirectOutput(ProcessBuilder.Redirect.DISCARD)
          .redirectError(ProcessBuilder.Redirect.DISCARD)
          .start();
      return true;
    } catch (IOException e) {
      return false;
    }
  }
}

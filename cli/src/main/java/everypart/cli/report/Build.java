package everypart.cli.report;

import everypart.cli.intake.Checksum;
import java.io.File;
import java.io.IOException;
import java.util.Optional;

/** Which program this is, to the byte. */
public final class Build {
  private static final int SHOWN_OF_CHECKSUM = 12;

  private Build() {}

  /**
   * Returns the program's name, its version, the first digits of the SHA-256 of its jar, which
   * holds all its code, words and models, and the Java it runs on, whose tables of letters count
   * too.
   */
  public static String name() {
    return version()
        + jar().map(sum -> " (build " + sum.substring(0, SHOWN_OF_CHECKSUM)).orElse(" (no build")
        + ", Java "
        + Runtime.version().feature()
        + ")";
  }

  /** Returns the program's name and its version, as the jar's manifest has it. */
  public static String version() {
    String version = Build.class.getPackage().getImplementationVersion();
    return "everypart " + Optional.ofNullable(version).orElse("(not run from its jar)");
  }

  /** Returns the checksum of the jar that the program runs from, the first of the class path. */
  private static Optional<String> jar() {
    String first = System.getProperty("java.class.path", "").split(File.pathSeparator, 2)[0];
    try {
      return first.endsWith(".jar") ? Checksum.sha256(first) : Optional.empty();
    } catch (IOException e) {
      return Optional.empty();
    }
  }
}

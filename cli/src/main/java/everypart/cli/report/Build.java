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
    return Wording.of(
        "build.name",
        "version",
        version(),
        "build",
        jar()
            .map(sum -> Wording.of("build.sum", "sum", sum.substring(0, SHOWN_OF_CHECKSUM)))
            .orElse(Wording.of("build.none")),
        "java",
        Runtime.version().feature());
  }

  /** Returns the program's name and its version, as the jar's manifest has it. */
  public static String version() {
    String version = Build.class.getPackage().getImplementationVersion();
    return Wording.of(
        "build.version", "version", Optional.ofNullable(version).orElse(Wording.of("build.noJar")));
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

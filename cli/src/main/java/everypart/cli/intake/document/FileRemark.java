package everypart.cli.intake.document;

/**
 * Something about a file that a person should know of.
 *
 * @param what what it is, without a final stop
 * @param mend what to do about it, without a final stop
 */
public record FileRemark(String what, String mend) {
  /** Checks that both are said. */
  public FileRemark {
    if (what.isBlank() || mend.isBlank()) {
      throw new IllegalArgumentException("a remark says what and how to mend it: " + what);
    }
  }

  /** Returns both as one sentence, without the file's name. */
  public String sentence() {
    return what + "; " + mend + ".";
  }
}

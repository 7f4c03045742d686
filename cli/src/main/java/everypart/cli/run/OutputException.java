package everypart.cli.run;

/** Thrown when results cannot be put where the caller wants them. */
public final class OutputException extends Exception {
  private static final long serialVersionUID = 1L;

  public OutputException(String sentence) {
    super(sentence);
  }
}

package everypart.cli.run;

/**
 * Thrown when a run cannot be what the call asks for: options that do not fit, or a folder that
 * cannot be written to. The program ends with {@link ExitStatus#WRONG_CALL}.
 */
public final class WrongCallException extends Exception {
  private static final long serialVersionUID = 1L;

  /** Carries one sentence that says what is wrong and how to mend it. */
  public WrongCallException(String sentence) {
    super(sentence);
  }
}

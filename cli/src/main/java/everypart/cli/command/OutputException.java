package everypart.cli.command;

/** Thrown when results cannot be put where the caller wants them. */
final class OutputException extends Exception {
  private static final long serialVersionUID = 1L;

  OutputException(String sentence) {
    super(sentence);
  }
}

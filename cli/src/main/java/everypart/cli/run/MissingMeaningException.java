package everypart.cli.run;

/** {@code --meaning} was asked for and cannot be had; the message says why and what to do. */
public final class MissingMeaningException extends Exception {
  private static final long serialVersionUID = 1;

  MissingMeaningException(String message) {
    super(message);
  }

  MissingMeaningException(String message, Throwable cause) {
    super(message, cause);
  }
}

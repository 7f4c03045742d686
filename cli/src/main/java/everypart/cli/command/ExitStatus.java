package everypart.cli.command;

/** The exit statuses of the public contract. */
final class ExitStatus {
  /** Done. */
  static final int DONE = 0;

  /** Done, and something asked for by {@code --fail-on} was found. */
  static final int FOUND = 1;

  /** The call was wrong. */
  static final int WRONG_CALL = 2;

  /** An input could not be used; the rest was done. */
  static final int INPUT_LOST = 3;

  /** Something happened that the program was not made for; as in sysexits (4.3BSD), EX_SOFTWARE. */
  static final int UNFORESEEN = 70;

  /** Results could not be written; as in sysexits, EX_IOERR. */
  static final int NOT_WRITTEN = 74;

  private ExitStatus() {}
}

package everypart.cli.run;

/** The exit statuses of the public contract. */
public final class ExitStatus {
  /** Done. */
  public static final int DONE = 0;

  /** Done, and something asked for by {@code --fail-on} was found. */
  public static final int FOUND = 1;

  /** The call was wrong. */
  public static final int WRONG_CALL = 2;

  /** An input could not be used; the rest was done. */
  public static final int INPUT_LOST = 3;

  /** Something happened that the program was not made for; as in sysexits (4.3BSD), EX_SOFTWARE. */
  public static final int UNFORESEEN = 70;

  /** Results could not be written; as in sysexits, EX_IOERR. */
  public static final int NOT_WRITTEN = 74;

  /**
   * Stopped by Ctrl-C: 128 and the number of the signal, as shells have it. Java and the launcher
   * end the program so, not a command.
   */
  public static final int STOPPED = 128 + 2;

  /** Stopped by the end of a session or by a batch system, as {@link #STOPPED}. */
  public static final int TERMINATED = 128 + 15;

  private ExitStatus() {}
}

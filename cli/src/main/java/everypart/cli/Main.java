package everypart.cli;

/** Starts the program. */
public final class Main {
  private Main() {}

  /** Runs the command line. */
  public static void main(String[] args) {}
}

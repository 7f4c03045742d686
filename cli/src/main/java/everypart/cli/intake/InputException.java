package everypart.cli.intake;

/** Thrown when an input that the rest depends on cannot be read. */
public final class InputException extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient InputProblem problem;

  /** Carries the problem. */
  public InputException(InputProblem problem) {
    super(problem.sentence());
    this.problem = problem;
  }

  /** Returns the problem. */
  public InputProblem problem() {
    return problem;
  }
}

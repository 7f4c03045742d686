package everypart.cli.run;

import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Sources;
import java.util.ArrayList;
import java.util.List;

/** The problems of one run: each is written at once, and kept for the reports. */
public final class Problems {
  private final Console console;
  private final List<InputProblem> seen = new ArrayList<>();

  Problems(Console console) {
    this.console = console;
  }

  public void add(InputProblem problem) {
    console.problem(problem);
    seen.add(problem);
  }

  /** Returns the problem that there was not one response. */
  public static InputProblem nothingRead(String name) {
    return InputProblem.fault(
        Sources.place(name),
        Sayings.of("problems.oneResponse"),
        Sayings.of("problems.checkRightFile"));
  }

  public List<InputProblem> seen() {
    return List.copyOf(seen);
  }

  public int exitStatus() {
    return seen.stream().anyMatch(problem -> problem.weight() == InputProblem.Weight.FAULT)
        ? ExitStatus.INPUT_LOST
        : ExitStatus.DONE;
  }
}

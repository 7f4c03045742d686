package everypart.cli.run;

import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Place;
import everypart.cli.intake.Sources;
import java.util.ArrayList;
import java.util.List;

/**
 * The problems of one run: each is written at once, and kept for the reports. Of a file of which
 * every row is bad the first thousand are enough to mend it by.
 */
public final class Problems {
  private static final int MOST = 1_000;

  private final Console console;
  private final List<InputProblem> seen = new ArrayList<>();
  private boolean faulty;

  Problems(Console console) {
    this.console = console;
  }

  public void add(InputProblem problem) {
    faulty |= problem.weight() == InputProblem.Weight.FAULT;
    if (seen.size() < MOST) {
      console.problem(problem);
      seen.add(problem);
    } else if (seen.size() == MOST) {
      InputProblem more =
          InputProblem.note(
              Place.file(Sayings.of("problems.messages")),
              Sayings.of("problems.more", MOST),
              Sayings.of("problems.more.mend"));
      console.problem(more);
      seen.add(more);
    }
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
    return faulty ? ExitStatus.INPUT_LOST : ExitStatus.DONE;
  }
}

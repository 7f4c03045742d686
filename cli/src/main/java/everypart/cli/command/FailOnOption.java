package everypart.cli.command;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.cli.run.ExitStatus;
import java.util.EnumSet;
import java.util.Set;
import picocli.CommandLine.Option;

/** The option that turns an open demand into an exit status. */
final class FailOnOption {
  enum What {
    missing,
    partly,
    look;

    boolean in(DemandCoverage demand) {
      return switch (this) {
        case missing -> demand.verdict() == Verdict.MISSING;
        case partly -> demand.verdict() == Verdict.PARTLY;
        case look -> demand.look();
      };
    }
  }

  @Option(names = "--fail-on", paramLabel = "WHAT", split = ",")
  private Set<What> what = EnumSet.noneOf(What.class);

  /** Tells whether one of the things asked for is in a result. */
  boolean in(Coverage coverage) {
    return coverage.parts().stream()
        .flatMap(part -> part.demands().stream())
        .anyMatch(demand -> what.stream().anyMatch(one -> one.in(demand)));
  }

  /** Returns the status of a run; a lost input weighs more than a finding. */
  int exitStatus(int status, boolean found) {
    return status == ExitStatus.DONE && found ? ExitStatus.FOUND : status;
  }

  int exitStatus(int status, Coverage coverage) {
    return exitStatus(status, in(coverage));
  }
}

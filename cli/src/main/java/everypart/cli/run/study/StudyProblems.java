package everypart.cli.run.study;

import everypart.cli.intake.InputProblem;
import everypart.cli.report.Exclusion;
import everypart.cli.report.StudyLog;
import everypart.cli.run.Console;
import everypart.cli.run.ExitStatus;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** The problems of a long run, in the order of the rows: the first are listed, all are counted. */
final class StudyProblems {
  private final Console console;
  private final List<StudyLog.Problem> listed = new ArrayList<>();
  private final BitSet lost = new BitSet();
  private final Map<Exclusion, Long> reasons = new EnumMap<>(Exclusion.class);
  private long seen;
  private long faults;

  StudyProblems(Console console) {
    this.console = console;
  }

  /** Counts a problem that was told of already. */
  void told(long row, InputProblem problem) {
    add(
        new StudyLog.Problem(
            row, problem.weight() == InputProblem.Weight.FAULT, problem.sentence()));
  }

  /** Counts a problem and tells of it while there are few. */
  void tell(long row, InputProblem problem) {
    if (seen < StudyLog.MOST_PROBLEMS) {
      console.problem(problem);
    }
    told(row, problem);
  }

  /** Counts a problem as a log has it. */
  void add(StudyLog.Problem problem) {
    seen++;
    faults += problem.fault() ? 1 : 0;
    if (listed.size() < StudyLog.MOST_PROBLEMS) {
      listed.add(problem);
    }
  }

  /** Sets how many there are, listed or not. */
  void count(long all, long faulty) {
    seen = all;
    faults = faulty;
  }

  /** Notes that a row has no result. */
  void lose(long row) {
    lost.set(Math.toIntExact(row));
  }

  /** Counts rows of a reason. */
  void reason(Exclusion reason, long rows) {
    reasons.merge(reason, rows, Long::sum);
  }

  /** Counts the reasons that a share has counted. */
  void reasons(StudyLog.Reasons share) {
    reason(Exclusion.UNREADABLE, share.unreadable());
    reason(Exclusion.UNKNOWN_PROMPT, share.unknownPrompt());
    reason(Exclusion.NOT_JUDGED, share.notJudged());
    reason(Exclusion.EMPTY, share.empty());
    reason(Exclusion.TOO_SHORT, share.tooShort());
  }

  private long reason(Exclusion reason) {
    return reasons.getOrDefault(reason, 0L);
  }

  List<StudyLog.Problem> listed() {
    return listed;
  }

  StudyLog.Rows rows(long read, long judged) {
    return new StudyLog.Rows(
        read,
        judged,
        runs(lost),
        seen,
        faults,
        new StudyLog.Reasons(
            reason(Exclusion.UNREADABLE),
            reason(Exclusion.UNKNOWN_PROMPT),
            reason(Exclusion.NOT_JUDGED),
            reason(Exclusion.EMPTY),
            reason(Exclusion.TOO_SHORT)));
  }

  /** Returns the first and last number of each run of numbers. */
  static List<List<Long>> runs(BitSet numbers) {
    List<List<Long>> runs = new ArrayList<>();
    int from = numbers.nextSetBit(0);
    while (from >= 0) {
      int end = numbers.nextClearBit(from);
      runs.add(List.of((long) from, end - 1L));
      from = numbers.nextSetBit(end);
    }
    return runs;
  }

  int exitStatus() {
    return faults > 0 ? ExitStatus.INPUT_LOST : ExitStatus.DONE;
  }
}

package everypart.analyzer.study;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * One response as a study counts it.
 *
 * @param responseId names the response
 * @param promptId names the prompt
 * @param verdict the verdict over all its parts
 * @param words how many words it has, as runs without white space
 * @param byMeaning how many of its sentences were compared with parts in meaning
 * @param groups what the further columns of its row say
 * @param demands the verdicts on the prompt's demands, in reading order
 */
public record JudgedResponse(
    String responseId,
    String promptId,
    Verdict verdict,
    int words,
    long byMeaning,
    Map<String, String> groups,
    List<DemandRow> demands) {
  private static final String SPACES = " \t\n\u000B\f\r";

  /** Copies the demands; the groups are kept as given. */
  public JudgedResponse {
    demands = List.copyOf(demands);
  }

  /** Returns a result as a study counts it. */
  public static JudgedResponse of(Coverage coverage, Map<String, String> groups) {
    List<DemandRow> rows = new ArrayList<>();
    for (PartCoverage part : coverage.parts()) {
      int number = 1;
      for (DemandCoverage demand : part.demands()) {
        rows.add(
            new DemandRow(
                part.part().label(),
                number++,
                rows.size() + 1,
                demand.demand().kind(),
                demand.demand().verb(),
                demand.verdict(),
                demand.confidence(),
                demand.look()));
      }
    }
    return new JudgedResponse(
        coverage.responseId(),
        coverage.prompt().id(),
        coverage.verdict(),
        words(coverage.text()),
        coverage.assignment().byMeaning(),
        groups,
        rows);
  }

  /** Returns how many words a text has. */
  public static int words(String text) {
    int words = 0;
    boolean inWord = false;
    for (int i = 0; i < text.length(); i++) {
      boolean space = SPACES.indexOf(text.charAt(i)) >= 0;
      words += inWord || space ? 0 : 1;
      inWord = !space;
    }
    return words;
  }
}

package everypart.analyzer.judge;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Text;
import java.util.List;

/** Judges which demands of a prompt a response addresses. Serves all threads. */
public interface Judge {
  /**
   * Judges every demand.
   *
   * @param text the response
   * @param assignment which words of it answer which part
   * @return for each part, in order, a finding for each of its demands, in order
   */
  List<List<Finding>> judge(Prompt prompt, Text text, Assignment assignment);

  /** Returns by what it judges, for reports: "features", or "features and reader". */
  String name();
}

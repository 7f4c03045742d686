package everypart.cli.report;

import everypart.analyzer.coverage.Verdict;
import everypart.cli.intake.InputProblem;
import java.util.ArrayList;
import java.util.List;

/** The report of a study as one self-contained HTML file. */
public final class StudyHtml {
  private StudyHtml() {}

  /** A prompt as the page shows it. */
  record PromptView(String title, String responses, List<DemandView> demands) {}

  /** A demand as the page shows it. */
  record DemandView(
      String part, String demand, long missing, long partly, long addressed, long unchecked) {}

  /** The page. */
  record Page(
      String title,
      String summary,
      List<PromptView> prompts,
      List<String> problems,
      boolean troubled,
      List<Doubts.Section> doubtful,
      String caution) {}

  /**
   * Returns the page.
   *
   * @param problems what could not be read
   */
  public static String of(Tally tally, List<InputProblem> problems) {
    List<PromptView> prompts = new ArrayList<>();
    for (Tally.PromptTally prompt : tally.prompts()) {
      prompts.add(
          new PromptView(
              prompt.prompt().title().orElse(prompt.prompt().id()),
              Words.count(prompt.responses(), "response"),
              prompt.demands().stream().map(StudyHtml::view).toList()));
    }
    Page page =
        new Page(
            "Coverage study",
            Words.count(tally.responses(), "response")
                + " to "
                + Words.count(tally.prompts().size(), "prompt")
                + Words.byMeaning(tally.byMeaning()),
            prompts,
            problems.stream().map(InputProblem::sentence).toList(),
            !problems.isEmpty(),
            Doubts.sections(tally.prompts().stream().map(Tally.PromptTally::prompt).toList()),
            Cautions.READER);
    return Templates.render("study.html", page);
  }

  private static DemandView view(Tally.DemandTally demand) {
    return new DemandView(
        demand.part().label(),
        Words.demand(demand.demand()),
        demand.count(Verdict.MISSING),
        demand.count(Verdict.PARTLY),
        demand.count(Verdict.ADDRESSED),
        demand.count(Verdict.UNCHECKED));
  }
}

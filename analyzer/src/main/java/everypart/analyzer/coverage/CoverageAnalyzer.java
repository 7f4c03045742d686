package everypart.analyzer.coverage;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.assign.PartAssigner;
import everypart.analyzer.judge.Finding;
import everypart.analyzer.judge.LearnedJudge;
import everypart.analyzer.judge.Reader;
import everypart.analyzer.meaning.SentenceMeaning;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.text.StackedMarks;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Tells what a response covers of its prompt. Built once, shared by all threads.
 *
 * <p>It touches no file, console or network.
 */
public final class CoverageAnalyzer {
  /** The name of the judge that goes by features alone. */
  public static final String WITHOUT_READER = "features";

  private static final Pattern SHARE = Pattern.compile("(\\d{1,2}) %$");

  private final TextReader texts;
  private final PartAssigner assigner;
  private final LearnedJudge judge;
  private final PromptReader prompts;

  /** Makes an analyzer with a lexicon, which judges by features alone. */
  public CoverageAnalyzer(Lexicon lexicon) {
    this(lexicon, Optional.empty(), Optional.empty());
  }

  /**
   * Makes an analyzer with a lexicon.
   *
   * @param meaning is asked about the sentences whose words leave open which part they answer
   * @param reader is asked about every demand, or the share of them that it names
   */
  public CoverageAnalyzer(
      Lexicon lexicon, Optional<SentenceMeaning> meaning, Optional<Reader> reader) {
    this.texts = new TextReader(lexicon.forms()::stem);
    this.judge = new LearnedJudge(lexicon, texts, reader);
    this.assigner = new PartAssigner(lexicon, texts, meaning, judge.bearing());
    this.prompts = new PromptReader(lexicon);
  }

  /** Returns by what it judges: {@link #WITHOUT_READER}, or "features and reader". */
  public String judge() {
    return judge.name();
  }

  /**
   * Returns the share of verdicts, in per cent, that the reader was asked about, by the name of a
   * judge: 0, 100, or what is between.
   */
  public static int readerShare(String judge) {
    Matcher share = SHARE.matcher(judge);
    return share.find() ? Integer.parseInt(share.group(1)) : judge.equals(WITHOUT_READER) ? 0 : 100;
  }

  /** Returns the reader of prompts that goes with this analyzer. */
  public PromptReader prompts() {
    return prompts;
  }

  /** Returns the reader of texts that goes with this analyzer. */
  public TextReader texts() {
    return texts;
  }

  /**
   * Tells what a response covers.
   *
   * @param responseId names the response in the result
   */
  public Coverage analyze(Prompt prompt, String responseId, String response) {
    Text text = texts.read(StackedMarks.bounded(response));
    Assignment assignment = assigner.assign(prompt, text);
    List<List<Finding>> findings = judge.judge(prompt, text, assignment);
    List<PartCoverage> parts = new ArrayList<>();
    for (int p = 0; p < prompt.parts().size(); p++) {
      Part part = prompt.parts().get(p);
      List<DemandCoverage> judged = new ArrayList<>();
      for (int place = 0; place < part.demands().size(); place++) {
        Demand demand = part.demands().get(place);
        judged.add(
            covered(
                demand,
                findings.get(p).get(place),
                points(prompt, text, assignment, part, demand)));
      }
      List<DemandCoverage> demands = Standings.applied(judged);
      parts.add(
          new PartCoverage(
              part, Verdict.over(demands.stream().map(DemandCoverage::verdict).toList()), demands));
    }
    Verdict verdict = Verdict.over(parts.stream().map(PartCoverage::verdict).toList());
    return new Coverage(responseId, prompt, response, verdict, parts, assignment, judge.name());
  }

  private List<PointFound> points(
      Prompt prompt, Text text, Assignment assignment, Part part, Demand demand) {
    return judge.points(prompt, text, assignment, part, demand).entrySet().stream()
        .map(entry -> new PointFound(entry.getKey(), entry.getValue()))
        .toList();
  }

  private static DemandCoverage covered(Demand demand, Finding finding, List<PointFound> points) {
    if (demand.kind() == DemandKind.REPRESENT) {
      return new DemandCoverage(
          demand, 0, Verdict.UNCHECKED, 1, true, List.of(), finding.why(), List.of());
    }
    Verdict verdict =
        !finding.addressed()
            ? Verdict.MISSING
            : finding.found() < demand.count() ? Verdict.PARTLY : Verdict.ADDRESSED;
    return new DemandCoverage(
        demand,
        finding.found(),
        verdict,
        finding.confidence(),
        finding.look(),
        finding.evidence(),
        finding.why(),
        points);
  }
}

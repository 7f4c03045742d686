package everypart.analyzer.coverage;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.assign.PartAssigner;
import everypart.analyzer.assign.Stretch;
import everypart.analyzer.detect.Detectors;
import everypart.analyzer.detect.Finding;
import everypart.analyzer.detect.Reading;
import everypart.analyzer.meaning.SentenceMeaning;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Tells what a response covers of its prompt. Built once, shared by all threads.
 *
 * <p>It touches no file, console or network.
 */
public final class CoverageAnalyzer {
  private final TextReader texts;
  private final PartAssigner assigner;
  private final Detectors detectors;
  private final PromptReader prompts;
  private final Confidence confidence;

  /** Makes an analyzer with a lexicon. */
  public CoverageAnalyzer(Lexicon lexicon) {
    this(lexicon, Optional.empty());
  }

  /**
   * Makes an analyzer with a lexicon.
   *
   * @param meaning is asked about the sentences whose words leave open which part they answer
   */
  public CoverageAnalyzer(Lexicon lexicon, Optional<SentenceMeaning> meaning) {
    this.texts = new TextReader(lexicon.forms()::stem);
    this.detectors = new Detectors(lexicon);
    this.assigner = new PartAssigner(lexicon, texts, meaning, detectors::fit);
    this.prompts = new PromptReader(lexicon);
    this.confidence = Confidence.bundled();
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
    Text text = texts.read(response);
    Assignment assignment = assigner.assign(prompt, text);
    Reading reading = detectors.read(prompt, text, assignment);
    List<PartCoverage> parts = new ArrayList<>();
    for (Part part : prompt.parts()) {
      List<DemandCoverage> judged = new ArrayList<>();
      for (int place = 0; place < part.demands().size(); place++) {
        judged.add(judge(reading, prompt, assignment, part, place));
      }
      List<DemandCoverage> demands = Standings.applied(judged);
      parts.add(
          new PartCoverage(
              part, Verdict.over(demands.stream().map(DemandCoverage::verdict).toList()), demands));
    }
    Verdict verdict = Verdict.over(parts.stream().map(PartCoverage::verdict).toList());
    return new Coverage(responseId, prompt, response, verdict, parts, assignment);
  }

  private DemandCoverage judge(
      Reading reading, Prompt prompt, Assignment assignment, Part part, int place) {
    Demand demand = part.demands().get(place);
    if (demand.kind() == DemandKind.REPRESENT) {
      return new DemandCoverage(
          demand,
          0,
          Verdict.UNCHECKED,
          1,
          true,
          List.of(),
          List.of("a drawing, graph or template cannot be read from text"),
          List.of());
    }
    List<PointFound> points =
        reading.points(part, demand).entrySet().stream()
            .map(entry -> new PointFound(entry.getKey(), entry.getValue()))
            .toList();
    Finding finding = reading.judge(part, place);
    Verdict verdict =
        finding.found() == 0
            ? Verdict.MISSING
            : finding.found() < demand.count() ? Verdict.PARTLY : Verdict.ADDRESSED;
    double sure = confidence.of(signs(finding, prompt, assignment, part, demand));
    return new DemandCoverage(
        demand,
        finding.found(),
        verdict,
        sure,
        confidence.asksForLook(sure),
        finding.evidence(),
        finding.why(),
        points);
  }

  /** Returns what tells how sure each verdict on a response is, by parts and demands. */
  List<Confidence.Signs> signs(Prompt prompt, String response) {
    Text text = texts.read(response);
    Assignment assignment = assigner.assign(prompt, text);
    Reading reading = detectors.read(prompt, text, assignment);
    List<Confidence.Signs> signs = new ArrayList<>();
    for (Part part : prompt.parts()) {
      for (int place = 0; place < part.demands().size(); place++) {
        Demand demand = part.demands().get(place);
        if (demand.kind() != DemandKind.REPRESENT) {
          signs.add(signs(reading.judge(part, place), prompt, assignment, part, demand));
        }
      }
    }
    return signs;
  }

  private static Confidence.Signs signs(
      Finding finding, Prompt prompt, Assignment assignment, Part part, Demand demand) {
    int words = 0;
    for (Stretch stretch : assignment.stretches()) {
      if (stretch.part().filter(part.label()::equals).isPresent()) {
        words += stretch.sentence().size();
      }
    }
    return new Confidence.Signs(
        finding.found() > 0, finding.strength(), words, prompt.parts().size() > 1, demand.kind());
  }
}

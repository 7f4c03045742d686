package everypart.analyzer.coverage;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.assign.Nearest;
import everypart.analyzer.assign.Stretch;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import java.util.List;
import java.util.Optional;

/**
 * What one response covers of its prompt.
 *
 * @param responseId names the response
 * @param prompt the prompt
 * @param text the response as given; all spans count in it
 * @param verdict the verdict over all parts
 * @param parts the verdicts on the parts, in the prompt's order
 * @param assignment which words answer which part
 * @param judge by what it was judged: {@link CoverageAnalyzer#judge()}
 */
public record Coverage(
    String responseId,
    Prompt prompt,
    String text,
    Verdict verdict,
    List<PartCoverage> parts,
    Assignment assignment,
    String judge) {
  /** Copies the parts. */
  public Coverage {
    parts = List.copyOf(parts);
  }

  /**
   * Returns the same without the tokens of its sentences, which no report shows: they take more
   * memory than all the rest.
   */
  public Coverage withoutTokens() {
    List<Stretch> stretches =
        assignment.stretches().stream()
            .map(
                one ->
                    new Stretch(
                        withoutTokens(one.sentence()), one.part(), one.byMeaning(), one.byLabel()))
            .toList();
    List<Nearest> nearest =
        assignment.nearest().stream()
            .map(one -> new Nearest(one.part(), withoutTokens(one.sentence()), one.why()))
            .toList();
    return new Coverage(
        responseId,
        prompt,
        text,
        verdict,
        parts,
        new Assignment(stretches, assignment.remarks(), nearest),
        judge);
  }

  private static Sentence withoutTokens(Sentence one) {
    return new Sentence(one.start(), one.end(), List.of(), one.lineStart(), one.paragraphStart());
  }

  /** Returns the sentence that came closest to a part that is missing and got no text. */
  public Optional<Nearest> nearest(PartCoverage part) {
    return part.verdict() == Verdict.MISSING
        ? assignment.nearest(part.part().label())
        : Optional.empty();
  }
}

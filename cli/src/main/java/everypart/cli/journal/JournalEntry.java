package everypart.cli.journal;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.assign.Nearest;
import everypart.analyzer.assign.Stretch;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.PointFound;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A result as a line of the journal: all of it that does not follow from the prompt and the text.
 * The tokens of its sentences are left out, since no report shows them.
 *
 * @param key names the prompt, the response and its text
 * @param verdict the verdict over all parts
 * @param parts the verdicts on the parts, in the prompt's order
 * @param stretches which words answer which part
 * @param remarks what was odd about the writer's labels
 * @param nearest the sentences that came closest to parts without text
 * @param judge by what it was judged
 */
record JournalEntry(
    String key,
    Verdict verdict,
    List<OfPart> parts,
    List<At> stretches,
    List<String> remarks,
    List<Close> nearest,
    String judge) {
  /** The verdict on a part. */
  record OfPart(Verdict verdict, List<OfDemand> demands) {}

  /** The verdict on a demand. */
  record OfDemand(
      int found,
      Verdict verdict,
      double confidence,
      boolean look,
      List<Span> evidence,
      List<Said> why,
      List<Mention> points) {}

  /** A reason; where it ends in words of the response, only their place is kept. */
  record Said(String words, @Nullable Span quoted) {
    static Said of(String why, String text) {
      int from = why.indexOf('"');
      String quote =
          from >= 0 && why.endsWith("\"") ? why.substring(from + 1, why.length() - 1) : "";
      int start = quote.isEmpty() ? -1 : text.indexOf(quote);
      return start < 0
          ? new Said(why, null)
          : new Said(why.substring(0, from), new Span(start, start + quote.length()));
    }

    String in(String text) {
      return quoted == null ? words : words + '"' + quoted.of(text) + '"';
    }
  }

  /** A point, by its place in the demand's list, and where it is mentioned. */
  record Mention(int point, @Nullable Span at) {}

  /** A stretch and the part it answers. */
  record At(
      int start,
      int end,
      boolean line,
      boolean paragraph,
      @Nullable String part,
      boolean meaning) {}

  /** A sentence that came closest to a part. */
  record Close(String part, int start, int end, String why) {}

  static JournalEntry of(String key, Coverage coverage) {
    return new JournalEntry(
        key,
        coverage.verdict(),
        coverage.parts().stream()
            .map(
                part ->
                    new OfPart(
                        part.verdict(),
                        part.demands().stream()
                            .map(demand -> demand(demand, coverage.text()))
                            .toList()))
            .toList(),
        coverage.assignment().stretches().stream()
            .map(
                one ->
                    new At(
                        one.sentence().start(),
                        one.sentence().end(),
                        one.sentence().lineStart(),
                        one.sentence().paragraphStart(),
                        one.part().orElse(null),
                        one.byMeaning()))
            .toList(),
        coverage.assignment().remarks(),
        coverage.assignment().nearest().stream()
            .map(
                one ->
                    new Close(one.part(), one.sentence().start(), one.sentence().end(), one.why()))
            .toList(),
        coverage.judge());
  }

  private static OfDemand demand(DemandCoverage demand, String text) {
    return new OfDemand(
        demand.found(),
        demand.verdict(),
        demand.confidence(),
        demand.look(),
        demand.evidence(),
        demand.why().stream().map(why -> Said.of(why, text)).toList(),
        demand.points().stream()
            .map(
                point ->
                    new Mention(
                        demand.demand().points().indexOf(point.point()), point.at().orElse(null)))
            .toList());
  }

  /** Returns the result of which this is the line. */
  Coverage restored(Prompt prompt, String responseId, String text) {
    List<PartCoverage> judged = new ArrayList<>();
    for (int p = 0; p < parts.size(); p++) {
      Part part = prompt.parts().get(p);
      List<DemandCoverage> demands = new ArrayList<>();
      for (OfDemand demand : parts.get(p).demands()) {
        demands.add(restored(part.demands().get(demands.size()), demand, text));
      }
      judged.add(new PartCoverage(part, parts.get(p).verdict(), demands));
    }
    return new Coverage(
        responseId,
        prompt,
        text,
        verdict,
        judged,
        new Assignment(
            stretches.stream()
                .map(
                    at ->
                        new Stretch(
                            new Sentence(
                                at.start(), at.end(), List.of(), at.line(), at.paragraph()),
                            Optional.ofNullable(at.part()),
                            at.meaning(),
                            false))
                .toList(),
            remarks,
            nearest.stream()
                .map(
                    one ->
                        new Nearest(
                            one.part(),
                            new Sentence(one.start(), one.end(), List.of(), false, false),
                            one.why()))
                .toList()),
        judge);
  }

  private static DemandCoverage restored(Demand demand, OfDemand kept, String text) {
    return new DemandCoverage(
        demand,
        kept.found(),
        kept.verdict(),
        kept.confidence(),
        kept.look(),
        kept.evidence(),
        kept.why().stream().map(why -> why.in(text)).toList(),
        kept.points().stream()
            .map(
                one ->
                    new PointFound(demand.points().get(one.point()), Optional.ofNullable(one.at())))
            .toList());
  }
}

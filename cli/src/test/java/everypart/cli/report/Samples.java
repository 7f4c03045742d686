package everypart.cli.report;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.assign.Stretch;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.PointFound;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.Remark;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.lexicon.DemandKind;
import java.util.List;
import java.util.Optional;

/** Results made by hand, so that the renderers are tested apart from the analyzer. */
final class Samples {
  private static final String STIMULUS = "Rain ran into a <tide> pool.";
  private static final String PART_A = "Describe two changes & sketch one.";
  private static final String PART_B = "Predict what the pipkins do. Justify it.";
  private static final String TEXT = STIMULUS + "\n\n" + PART_A + "\n\n" + PART_B + "\n";

  private Samples() {}

  static Prompt prompt() {
    int a = TEXT.indexOf(PART_A);
    int b = TEXT.indexOf(PART_B);
    return new Prompt(
        "pool",
        Optional.of("Rain on a pool"),
        TEXT,
        STIMULUS,
        List.of(
            new Part(
                "a",
                PART_A,
                new Span(a, a + PART_A.length()),
                Optional.empty(),
                List.of(
                    new Demand(
                        DemandKind.DESCRIBE,
                        "describe",
                        2,
                        in(TEXT, "Describe two changes"),
                        "changes",
                        List.of(
                            new Point(List.of("salt", "salinity")), new Point(List.of("depth"))),
                        "the verb \"describe\""),
                    new Demand(
                        DemandKind.REPRESENT,
                        "sketch",
                        1,
                        in(TEXT, "sketch one"),
                        "one",
                        List.of(),
                        "the verb \"sketch\""))),
            new Part(
                "b",
                PART_B,
                new Span(b, b + PART_B.length()),
                Optional.empty(),
                List.of(
                    new Demand(
                        DemandKind.PREDICT,
                        "predict",
                        1,
                        in(TEXT, "Predict what the pipkins do"),
                        "what the pipkins do",
                        List.of(),
                        "the verb \"predict\""),
                    new Demand(
                        DemandKind.JUSTIFY,
                        "justify",
                        1,
                        in(TEXT, "Justify it"),
                        "",
                        List.of(),
                        "the verb \"justify\"")))),
        List.of(
            new Remark(
                Remark.Kind.LOOK, in(TEXT, "sketch one"), "a sketch cannot be read from text")));
  }

  /** Returns a response with a character outside the basic plane before all evidence. */
  static Coverage partly() {
    String text = "\ud83d\udc1f (a) The salt <falls>.\n(b) They leave & hide.";
    Span salt = in(text, "The salt <falls>.");
    Span leave = in(text, "They leave & hide.");
    return coverage(
        "s1",
        text,
        Verdict.PARTLY,
        List.of(
            judged(0, 0, 1, Verdict.PARTLY, 0.64, true, List.of(salt), "one of two changes found"),
            judged(0, 1, 0, Verdict.UNCHECKED, 1, true, List.of(), "cannot be read from text"),
            judged(1, 0, 1, Verdict.ADDRESSED, 0.93, false, List.of(leave), "says what happens"),
            judged(1, 1, 0, Verdict.MISSING, 0.81, false, List.of(), "no ground was found")),
        List.of(
            stretch(new Span(0, salt.end()), "a"),
            stretch(new Span(salt.end() + 1, leave.end()), "b")),
        List.of("the label (b) stands at the end of a line"));
  }

  static Coverage empty() {
    return coverage(
        "=s2",
        "",
        Verdict.MISSING,
        List.of(
            judged(0, 0, 0, Verdict.MISSING, 0.99, false, List.of(), "no text for this part"),
            judged(0, 1, 0, Verdict.UNCHECKED, 1, true, List.of(), "cannot be read from text"),
            judged(1, 0, 0, Verdict.MISSING, 0.99, false, List.of(), "no text for this part"),
            judged(1, 1, 0, Verdict.MISSING, 0.99, false, List.of(), "no text for this part")),
        List.of(),
        List.of());
  }

  private static Coverage coverage(
      String id,
      String text,
      Verdict verdict,
      List<DemandCoverage> demands,
      List<Stretch> stretches,
      List<String> remarks) {
    Prompt prompt = prompt();
    List<PartCoverage> parts =
        List.of(
            part(prompt.parts().get(0), demands.subList(0, 2)),
            part(prompt.parts().get(1), demands.subList(2, 4)));
    return new Coverage(
        id,
        prompt,
        text,
        verdict,
        parts,
        new Assignment(stretches, remarks, List.of()),
        "features");
  }

  private static PartCoverage part(Part part, List<DemandCoverage> demands) {
    return new PartCoverage(
        part, Verdict.over(demands.stream().map(DemandCoverage::verdict).toList()), demands);
  }

  private static DemandCoverage judged(
      int part,
      int demand,
      int found,
      Verdict verdict,
      double confidence,
      boolean look,
      List<Span> evidence,
      String why) {
    Demand one = prompt().parts().get(part).demands().get(demand);
    List<PointFound> points =
        one.points().stream()
            .map(
                point ->
                    new PointFound(
                        point,
                        point.name().equals("salt") && found > 0
                            ? evidence.stream().findFirst()
                            : Optional.empty()))
            .toList();
    return new DemandCoverage(
        one, found, verdict, confidence, look, evidence, List.of(why), points);
  }

  private static Stretch stretch(Span at, String part) {
    return new Stretch(
        new Sentence(at.start(), at.end(), List.of(), true, false), Optional.of(part));
  }

  private static Span in(String text, String words) {
    int start = text.indexOf(words);
    return new Span(start, start + words.length());
  }
}

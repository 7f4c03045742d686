package everypart.cli.report;

import everypart.analyzer.assign.Stretch;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.PointFound;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.text.Span;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A result as the reports for people show it.
 *
 * @param id the response's id
 * @param key the id as a name that is unique in the page and safe in a link
 * @param verdict the verdict over all parts
 * @param summary how many demands are open, one sentence without its stop
 * @param parts the parts
 * @param pieces the whole response, cut where a mark or a part begins or ends
 * @param empty whether there is no text at all
 * @param remarks what was odd about the writer's labels, and whether meanings were compared
 */
record ResponseView(
    String id,
    String key,
    VerdictView verdict,
    String summary,
    List<PartView> parts,
    List<Piece> pieces,
    boolean empty,
    List<String> remarks) {
  /**
   * A part.
   *
   * @param nearest for a missing part, the sentence that came closest
   */
  record PartView(
      String label,
      String wording,
      VerdictView verdict,
      List<DemandView> demands,
      List<NearestView> nearest) {}

  /** The sentence that came closest to a part without text, and why it was not taken. */
  record NearestView(String quote, String why) {}

  /**
   * A demand.
   *
   * @param key unique in the page
   * @param code its part and running number, as in "b2"
   * @param part the part's label
   * @param number its running number in the part, from 1
   * @param kind its kind
   * @param program the program's verdict, where a teacher's stands in its place; else empty
   * @param words it in a few words
   * @param said it in the prompt's own words
   * @param quotes the words relied on
   * @param why the reasons
   * @param next the next step; empty when addressed
   * @param points the author's points and whether each is mentioned
   * @param look whether a person should look
   * @param sure how many of a hundred such verdicts are right, as measured on coded answers
   */
  record DemandView(
      String key,
      String code,
      String part,
      int number,
      String kind,
      String program,
      String words,
      String said,
      VerdictView verdict,
      List<String> quotes,
      String why,
      String next,
      List<PointView> points,
      boolean look,
      long sure) {
    boolean open() {
      return !next.isEmpty();
    }

    /** Tells whether it is open, and not just unchecked. */
    boolean gap() {
      return open() && !verdict.word().equals(Verdict.UNCHECKED.word());
    }

    String sureness() {
      return Wording.of("check.sure", "n", sure);
    }

    /** Tells whether it is a verdict of the program's that was measured. */
    boolean measured() {
      return program.isEmpty() && !verdict.word().equals(Verdict.UNCHECKED.word());
    }

    boolean hasPoints() {
      return !points.isEmpty();
    }
  }

  /** A point that the prompt's author listed. */
  record PointView(String name, String state) {}

  /**
   * A stretch of the response.
   *
   * @param place the part that begins here, in words; empty where the part goes on
   * @param text the words
   * @param marked whether a verdict relies on them
   * @param tags the demands whose evidence ends here
   */
  record Piece(String place, String text, boolean marked, List<Tag> tags) {
    boolean placed() {
      return !place.isEmpty();
    }
  }

  /** A demand's short name and the key of its entry. */
  record Tag(String key, String name) {}

  /** A verdict as the public formats' word, as a shape, and as people read it. */
  record VerdictView(String word, String shape, String name) {
    static VerdictView of(Verdict verdict) {
      return new VerdictView(
          verdict.word(),
          switch (verdict) {
            case ADDRESSED -> "\u2713";
            case PARTLY -> "\u25d0";
            case MISSING -> "\u25cb";
            case UNCHECKED -> "\u2013";
          },
          Wording.of("verdict." + verdict.word()));
    }
  }

  /**
   * Makes the view of a result.
   *
   * @param key a name that is unique in the page and safe in a link
   */
  static ResponseView of(Coverage coverage, String key) {
    return of(coverage, coverage, Optional.empty(), key);
  }

  /**
   * Makes the view of a result with a teacher's verdicts.
   *
   * @param program the program's own result
   * @param revision what became of the demands since an earlier draft
   */
  static ResponseView of(
      Coverage coverage, Coverage program, Optional<Revision> revision, String key) {
    List<PartView> parts = new ArrayList<>();
    for (PartCoverage part : coverage.parts()) {
      List<DemandCoverage> own = program.parts().get(parts.size()).demands();
      List<DemandView> demands = new ArrayList<>();
      for (DemandCoverage demand : part.demands()) {
        demands.add(
            demand(coverage, part, demand, own.get(demands.size()), key, demands.size() + 1));
      }
      parts.add(
          new PartView(
              part.part().label(),
              Words.oneLine(part.part().text()),
              VerdictView.of(part.verdict()),
              List.copyOf(demands),
              coverage
                  .nearest(part)
                  .map(
                      nearest ->
                          new NearestView(
                              Words.oneLine(nearest.sentence().span().of(coverage.text())),
                              nearest.why()))
                  .stream()
                  .toList()));
    }
    return new ResponseView(
        coverage.responseId(),
        key,
        VerdictView.of(coverage.verdict()),
        summary(coverage),
        List.copyOf(parts),
        pieces(coverage, key),
        coverage.text().isBlank(),
        remarks(coverage, revision));
  }

  static List<String> remarks(Coverage coverage, Optional<Revision> revision) {
    List<String> remarks = new ArrayList<>();
    revision.ifPresent(one -> remarks.add(one.sentence() + "."));
    remarks.addAll(coverage.assignment().remarks());
    long placed = coverage.assignment().byMeaning();
    if (placed > 0) {
      remarks.add(Wording.count("check.meaning", placed));
    }
    return List.copyOf(remarks);
  }

  private static DemandView demand(
      Coverage coverage,
      PartCoverage part,
      DemandCoverage demand,
      DemandCoverage program,
      String key,
      int number) {
    return new DemandView(
        key(key, part, number),
        Words.code(coverage.prompt(), part.part(), number),
        part.part().label(),
        number,
        demand.demand().kind().word(),
        program.verdict() == demand.verdict() ? "" : program.verdict().word(),
        Words.demand(demand.demand()),
        PageData.words(coverage.prompt(), part.part(), demand.demand()),
        VerdictView.of(demand.verdict()),
        demand.evidence().stream().map(span -> Words.oneLine(span.of(coverage.text()))).toList(),
        String.join("; ", demand.why()),
        NextStep.of(demand),
        demand.points().stream().map(ResponseView::point).toList(),
        demand.look(),
        Math.round(demand.confidence() * 100));
  }

  private static PointView point(PointFound point) {
    return new PointView(
        point.point().name(),
        Wording.of(point.at().isPresent() ? "check.point.found" : "check.point.not"));
  }

  private static String key(String key, PartCoverage part, int number) {
    return key + "-" + part.part().label().replaceAll("[^A-Za-z0-9]", "_") + "-" + number;
  }

  /** Returns how many demands are open, one sentence without its stop. */
  private static String summary(Coverage coverage) {
    List<DemandCoverage> all =
        coverage.parts().stream().flatMap(part -> part.demands().stream()).toList();
    long checked = all.stream().filter(one -> one.verdict() != Verdict.UNCHECKED).count();
    long missing = all.stream().filter(one -> one.verdict() == Verdict.MISSING).count();
    long partly = all.stream().filter(one -> one.verdict() == Verdict.PARTLY).count();
    List<String> said = new ArrayList<>();
    if (missing + partly == 0) {
      said.add(
          checked == 0 ? Wording.of("summary.nothing") : Wording.count("summary.all", checked));
    } else {
      String how =
          Stream.of(
                  missing == 0 ? "" : Wording.of("summary.missing", "n", missing),
                  partly == 0 ? "" : Wording.of("summary.partly", "n", partly))
              .filter(words -> !words.isEmpty())
              .collect(Collectors.joining(", "));
      said.add(
          Wording.of(
              "summary.open." + (checked == 1 ? "one" : "other"),
              "n",
              missing + partly,
              "total",
              checked,
              "how",
              how));
    }
    long left =
        all.stream()
            .filter(one -> one.verdict() == Verdict.UNCHECKED)
            .filter(one -> one.demand().kind() != DemandKind.REPRESENT)
            .count();
    if (all.size() - left > checked) {
      said.add(Wording.of("summary.picture", "n", all.size() - left - checked));
    }
    if (left > 0) {
      said.add(Wording.count("summary.left", left));
    }
    return String.join("; ", said);
  }

  private static List<Piece> pieces(Coverage coverage, String key) {
    String text = coverage.text();
    TreeSet<Integer> cuts = new TreeSet<>(List.of(0, text.length()));
    List<Evidence> evidence = new ArrayList<>();
    for (PartCoverage part : coverage.parts()) {
      int number = 1;
      for (DemandCoverage demand : part.demands()) {
        for (Span span : demand.evidence()) {
          evidence.add(
              new Evidence(
                  span,
                  new Tag(
                      key(key, part, number), Words.code(coverage.prompt(), part.part(), number))));
          cuts.add(span.start());
          cuts.add(span.end());
        }
        number++;
      }
    }
    String before = "";
    Map<Integer, String> places = new HashMap<>();
    for (Stretch stretch : coverage.assignment().stretches()) {
      String place =
          stretch
              .part()
              .map(label -> Wording.of("text.part", "part", label))
              .orElse(Wording.of("text.noPart"));
      if (!place.equals(before)) {
        places.put(stretch.sentence().start(), place);
        cuts.add(stretch.sentence().start());
        before = place;
      }
    }
    List<Piece> pieces = new ArrayList<>();
    int from = 0;
    for (int to : cuts.tailSet(1)) {
      Span at = new Span(from, to);
      pieces.add(
          new Piece(
              Optional.ofNullable(places.get(from)).orElse(""),
              at.of(text),
              evidence.stream().anyMatch(one -> one.span().overlaps(at)),
              evidence.stream()
                  .filter(one -> one.span().end() == at.end() && one.span().overlaps(at))
                  .map(Evidence::tag)
                  .distinct()
                  .toList()));
      from = to;
    }
    return List.copyOf(pieces);
  }

  private record Evidence(Span span, Tag tag) {}
}

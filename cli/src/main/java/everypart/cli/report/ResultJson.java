package everypart.cli.report;

import com.fasterxml.jackson.core.JsonGenerator;
import everypart.analyzer.assign.Nearest;
import everypart.analyzer.assign.Stretch;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.PointFound;
import everypart.analyzer.study.JudgedResponse;
import everypart.analyzer.text.CodePoints;
import everypart.analyzer.text.Span;
import java.io.IOException;
import java.util.Map;
import java.util.Optional;

/** The result of one response as JSON: a line of {@code results.jsonl}. */
public final class ResultJson {
  private ResultJson() {}

  /**
   * Returns a result on one line.
   *
   * @param groups the further columns of the response's row
   */
  public static String line(Coverage coverage, Map<String, String> groups) {
    return line(coverage, coverage, Optional.empty(), groups);
  }

  /**
   * Returns a result on one line.
   *
   * @param groups the further columns of the response's row
   * @param leftOut why the figures of the study do not count it; nothing when they do
   */
  public static String line(
      Coverage coverage, Map<String, String> groups, Optional<Exclusion> leftOut) {
    return Json.line(json -> write(json, coverage, coverage, Optional.empty(), groups, leftOut));
  }

  /** Returns how the line of a response begins, up to and with the comma after its id. */
  public static String opening(String responseId) {
    String alone =
        Json.line(
            json -> {
              json.writeStartObject();
              json.writeStringField("responseId", responseId);
              json.writeEndObject();
            });
    return alone.substring(0, alone.length() - 1) + ",";
  }

  /**
   * Returns a result with a teacher's verdicts on one line; where they differ from the program's,
   * both are kept.
   *
   * @param program the program's own result
   * @param revision what became of the demands since an earlier draft
   */
  public static String line(
      Coverage coverage,
      Coverage program,
      Optional<Revision> revision,
      Map<String, String> groups) {
    return Json.line(json -> write(json, coverage, program, revision, groups, Optional.empty()));
  }

  /** Returns a result indented for people. */
  public static String pretty(Coverage coverage, Optional<Revision> revision) {
    return Json.pretty(
        json -> write(json, coverage, coverage, revision, Map.of(), Optional.empty()));
  }

  private static void write(
      JsonGenerator json,
      Coverage coverage,
      Coverage program,
      Optional<Revision> revision,
      Map<String, String> groups,
      Optional<Exclusion> leftOut)
      throws IOException {
    CodePoints points = new CodePoints(coverage.text());
    json.writeStartObject();
    json.writeStringField("responseId", coverage.responseId());
    json.writeStringField("promptId", coverage.prompt().id());
    json.writeStringField("verdict", coverage.verdict().word());
    json.writeNumberField("words", JudgedResponse.words(coverage.text()));
    if (leftOut.isPresent()) {
      json.writeStringField("leftOut", leftOut.get().word());
    }
    json.writeStringField("judge", coverage.judge());
    json.writeArrayFieldStart("parts");
    for (int p = 0; p < coverage.parts().size(); p++) {
      PartCoverage part = coverage.parts().get(p);
      json.writeStartObject();
      json.writeStringField("label", part.part().label());
      json.writeStringField("verdict", part.verdict().word());
      json.writeArrayFieldStart("demands");
      for (int d = 0; d < part.demands().size(); d++) {
        DemandCoverage own = program.parts().get(p).demands().get(d);
        write(json, part.demands().get(d), own, coverage.text(), points);
      }
      json.writeEndArray();
      Optional<Nearest> nearest = coverage.nearest(part);
      if (nearest.isPresent()) {
        Span span = nearest.get().sentence().span();
        json.writeObjectFieldStart("nearest");
        Json.span(json, points, span);
        json.writeStringField("quote", span.of(coverage.text()));
        json.writeStringField("why", nearest.get().why());
        json.writeEndObject();
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("sentences");
    for (Stretch stretch : coverage.assignment().stretches()) {
      json.writeStartObject();
      Json.span(json, points, stretch.sentence().span());
      json.writeStringField("part", stretch.part().orElse(null));
      if (stretch.byMeaning()) {
        json.writeBooleanField("meaning", true);
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    if (coverage.assignment().byMeaning() > 0) {
      json.writeNumberField("meaning", coverage.assignment().byMeaning());
    }
    if (!groups.isEmpty()) {
      json.writeObjectFieldStart("groups");
      for (Map.Entry<String, String> group : groups.entrySet()) {
        json.writeStringField(group.getKey(), group.getValue());
      }
      json.writeEndObject();
    }
    if (revision.isPresent()) {
      json.writeArrayFieldStart("revision");
      for (Revision.Item item : revision.get().items()) {
        json.writeStartObject();
        json.writeStringField("part", item.part());
        json.writeNumberField("demand", item.demand());
        json.writeStringField("earlier", item.earlier().word());
        json.writeStringField("change", item.change().word());
        json.writeEndObject();
      }
      json.writeEndArray();
    }
    if (!coverage.assignment().remarks().isEmpty()) {
      json.writeArrayFieldStart("remarks");
      for (String remark : coverage.assignment().remarks()) {
        json.writeString(remark);
      }
      json.writeEndArray();
    }
    json.writeEndObject();
  }

  private static void write(
      JsonGenerator json,
      DemandCoverage demand,
      DemandCoverage program,
      String text,
      CodePoints points)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("kind", demand.demand().kind().word());
    json.writeStringField("verb", demand.demand().verb());
    json.writeNumberField("count", demand.demand().count());
    Json.standing(json, demand.demand());
    json.writeNumberField("found", demand.found());
    json.writeStringField("verdict", demand.verdict().word());
    json.writeNumberField("confidence", Math.round(demand.confidence() * 1000) / 1000.0);
    json.writeBooleanField("look", demand.look());
    if (demand.verdict() != program.verdict()) {
      json.writeObjectFieldStart("program");
      json.writeStringField("verdict", program.verdict().word());
      json.writeNumberField("confidence", Math.round(program.confidence() * 1000) / 1000.0);
      json.writeBooleanField("look", program.look());
      json.writeEndObject();
    }
    json.writeArrayFieldStart("evidence");
    for (Span span : demand.evidence()) {
      json.writeStartObject();
      Json.span(json, points, span);
      json.writeStringField("quote", span.of(text));
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("why");
    for (String why : demand.why()) {
      json.writeString(why);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("points");
    for (PointFound point : demand.points()) {
      json.writeStartObject();
      json.writeStringField("point", point.point().name());
      json.writeBooleanField("found", point.at().isPresent());
      if (point.at().isPresent()) {
        Json.span(json, points, point.at().get());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }
}

package everypart.cli.report;

import com.fasterxml.jackson.core.JsonGenerator;
import everypart.analyzer.coverage.Verdict;
import everypart.cli.intake.InputProblem;
import java.io.IOException;
import java.util.List;

/** The counts of a study as JSON: {@code summary.json}. */
public final class SummaryJson {
  private SummaryJson() {}

  /**
   * Returns the summary.
   *
   * @param problems what could not be read
   */
  public static String of(Tally tally, List<InputProblem> problems) {
    return Json.pretty(json -> write(json, tally, problems)) + "\n";
  }

  private static void write(JsonGenerator json, Tally tally, List<InputProblem> problems)
      throws IOException {
    json.writeStartObject();
    json.writeNumberField("responses", tally.responses());
    if (tally.byMeaning() > 0) {
      json.writeNumberField("meaning", tally.byMeaning());
    }
    json.writeArrayFieldStart("prompts");
    for (Tally.PromptTally prompt : tally.prompts()) {
      json.writeStartObject();
      json.writeStringField("promptId", prompt.prompt().id());
      json.writeNumberField("responses", prompt.responses());
      for (Verdict verdict : Verdict.values()) {
        json.writeNumberField(verdict.word(), prompt.count(verdict));
      }
      json.writeArrayFieldStart("demands");
      for (Tally.DemandTally demand : prompt.demands()) {
        json.writeStartObject();
        json.writeStringField("part", demand.part().label());
        json.writeNumberField("demand", demand.number());
        json.writeStringField("kind", demand.demand().kind().word());
        json.writeStringField("verb", demand.demand().verb());
        for (Verdict verdict : Verdict.values()) {
          json.writeNumberField(verdict.word(), demand.count(verdict));
        }
        json.writeNumberField("look", demand.look());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("problems");
    for (InputProblem problem : problems) {
      json.writeString(problem.sentence());
    }
    json.writeEndArray();
    json.writeEndObject();
  }
}

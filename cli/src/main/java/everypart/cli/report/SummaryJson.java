package everypart.cli.report;

import com.fasterxml.jackson.core.JsonGenerator;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.StudySummary;
import everypart.analyzer.study.agreement.Agreement;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The figures of a study as JSON: {@code summary.json}. */
public final class SummaryJson {
  private final StudyLog log;
  private final StudySummary summary;
  private final Optional<Agreement> agreement;

  private SummaryJson(StudyLog log, StudySummary summary, Optional<Agreement> agreement) {
    this.log = log;
    this.summary = summary;
    this.agreement = agreement;
  }

  /**
   * Returns the summary.
   *
   * @param agreement the program's verdicts beside people's codes, when there are any
   */
  public static String of(StudyLog log, StudySummary summary, Optional<Agreement> agreement) {
    return Json.pretty(new SummaryJson(log, summary, agreement)::write) + "\n";
  }

  private void write(JsonGenerator json) throws IOException {
    Figures figures = new Figures(json, summary.level());
    json.writeStartObject();
    json.writeStringField("program", log.program());
    json.writeNumberField("responses", summary.responses());
    Flow.of(log).write(json);
    if (planned().isPresent()) {
      planned().get().write(json);
    }
    if (summary.byMeaning() > 0) {
      json.writeNumberField("meaning", summary.byMeaning());
    }
    json.writeNumberField("complete", summary.complete());
    json.writeNumberField("level", summary.level().value());
    json.writeArrayFieldStart("byOpenDemands");
    for (Long count : summary.byOpenDemands()) {
      json.writeNumber(count);
    }
    json.writeEndArray();
    prompts(json);
    rates(json, figures);
    levels(json, figures);
    comparisons(json, figures);
    trends(json, figures);
    coOmissions(json, figures);
    changes(json, figures);
    corrections(json, figures);
    if (agreement.isPresent()) {
      json.writeObjectFieldStart("agreement");
      AgreementJson.sections(json, figures, agreement.get());
      AgreementJson.groups(json, figures, agreement.get(), log.settings().by());
      json.writeEndObject();
    }
    strings(json, "notes", summary.notes());
    strings(json, "methods", MethodsText.of(log, summary).paragraphs());
    strings(json, "problems", log.sentences());
    json.writeEndObject();
  }

  private Optional<Planned> planned() {
    return Planned.of(log, summary);
  }

  private static void strings(JsonGenerator json, String name, List<String> values)
      throws IOException {
    json.writeArrayFieldStart(name);
    for (String value : values) {
      json.writeString(value);
    }
    json.writeEndArray();
  }

  private static void verdicts(JsonGenerator json, Map<Verdict, Long> counts) throws IOException {
    for (Verdict verdict : Verdict.values()) {
      json.writeNumberField(verdict.word(), counts.getOrDefault(verdict, 0L));
    }
  }

  private void prompts(JsonGenerator json) throws IOException {
    json.writeArrayFieldStart("prompts");
    for (StudySummary.PromptCounts prompt : summary.prompts()) {
      json.writeStartObject();
      json.writeStringField("promptId", prompt.promptId());
      json.writeNumberField("responses", prompt.responses());
      verdicts(json, prompt.verdicts());
      json.writeArrayFieldStart("demands");
      for (StudySummary.DemandCounts demand : prompt.demands()) {
        json.writeStartObject();
        json.writeStringField("part", demand.part());
        json.writeNumberField("demand", demand.number());
        json.writeStringField("kind", demand.kind().word());
        json.writeStringField("verb", demand.verb());
        verdicts(json, demand.verdicts());
        json.writeNumberField("look", demand.look());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void rates(JsonGenerator json, Figures figures) throws IOException {
    json.writeArrayFieldStart("rates");
    for (StudySummary.Rate rate : summary.rates()) {
      json.writeStartObject();
      json.writeStringField("by", rate.dimension().word());
      json.writeStringField("name", rate.name());
      optional(json, "value", rate.value());
      optional(json, "kind", rate.kind());
      verdicts(json, rate.verdicts());
      json.writeNumberField("look", rate.look());
      figures.proportion("omission", rate.missing());
      figures.interval("clustered", rate.clustered());
      figures.number("designEffect", rate.designEffect());
      json.writeNumberField("clusters", rate.clusters());
      figures.method("method", rate.method());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void optional(JsonGenerator json, String name, String value) throws IOException {
    if (!value.isEmpty()) {
      json.writeStringField(name, value);
    }
  }

  private void comparisons(JsonGenerator json, Figures figures) throws IOException {
    json.writeArrayFieldStart("comparisons");
    for (StudySummary.GroupComparison one : summary.comparisons()) {
      json.writeStartObject();
      json.writeStringField("column", one.column());
      json.writeStringField("kind", one.kind().map(kind -> kind.word()).orElse(null));
      json.writeStringField("first", one.first());
      json.writeStringField("second", one.second());
      if (planned().isPresent()) {
        json.writeBooleanField("planned", planned().get().is(one));
      }
      figures.proportion("firstOmission", Optional.of(one.rates().first()));
      figures.proportion("secondOmission", Optional.of(one.rates().second()));
      figures.estimate("difference", one.difference());
      figures.estimate("oddsRatio", one.oddsRatio());
      figures.test("test", one.test());
      figures.test("clusteredTest", one.clusteredTest());
      figures.method("method", one.method());
      figures.number("holm", one.holm());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void trends(JsonGenerator json, Figures figures) throws IOException {
    json.writeArrayFieldStart("trends");
    for (StudySummary.Effect one : summary.trends()) {
      json.writeStartObject();
      json.writeStringField("by", one.dimension().word());
      figures.test("test", one.test());
      figures.estimate("slope", one.slope());
      figures.method("method", one.method());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void levels(JsonGenerator json, Figures figures) throws IOException {
    json.writeArrayFieldStart("levels");
    for (StudySummary.ClusterLevel level : summary.levels()) {
      json.writeStartObject();
      json.writeStringField("column", level.column());
      json.writeNumberField("clusters", level.clusters());
      figures.number("designEffect", level.designEffect());
      figures.number("likeness", level.likeness());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void coOmissions(JsonGenerator json, Figures figures) throws IOException {
    json.writeArrayFieldStart("coOmissions");
    for (StudySummary.CoOmission one : summary.coOmissions()) {
      json.writeStartObject();
      json.writeStringField("promptId", one.prompt().isEmpty() ? null : one.prompt());
      json.writeStringField("first", one.first());
      json.writeStringField("second", one.second());
      json.writeNumberField("both", one.both());
      json.writeNumberField("onlyFirst", one.onlyFirst());
      json.writeNumberField("onlySecond", one.onlySecond());
      json.writeNumberField("neither", one.neither());
      figures.number("phi", one.phi());
      figures.number("lift", one.lift());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void changes(JsonGenerator json, Figures figures) throws IOException {
    if (summary.drafts().isEmpty()) {
      return;
    }
    StudySummary.Drafts drafts = summary.drafts().get();
    json.writeObjectFieldStart("drafts");
    json.writeNumberField("writers", drafts.answers());
    strings(json, "order", drafts.order());
    json.writeNumberField("sameDraftTwice", drafts.twice());
    json.writeNumberField("unplaced", drafts.unplaced());
    json.writeArrayFieldStart("changes");
    for (StudySummary.Change one : drafts.changes()) {
      json.writeStartObject();
      json.writeStringField("kind", one.kind().map(kind -> kind.word()).orElse(null));
      if (planned().isPresent()) {
        json.writeBooleanField("planned", planned().get().is(one));
      }
      json.writeNumberField("missingInBoth", one.counts().both());
      json.writeNumberField("missingInFirstOnly", one.counts().before());
      json.writeNumberField("missingInLastOnly", one.counts().after());
      json.writeNumberField("missingInNeither", one.counts().neither());
      figures.estimate("change", one.change());
      figures.test("test", one.test());
      figures.method("method", one.method());
      figures.number("holm", one.holm());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void corrections(JsonGenerator json, Figures figures) throws IOException {
    if (summary.corrections().isEmpty()) {
      return;
    }
    json.writeArrayFieldStart("corrections");
    for (StudySummary.Correction one : summary.corrections()) {
      json.writeStartObject();
      json.writeStringField("kind", one.kind().map(kind -> kind.word()).orElse(null));
      figures.proportion("apparent", Optional.of(one.apparent()));
      figures.detection("sensitivity", one.sensitivity());
      figures.detection("specificity", one.specificity());
      figures.estimate("corrected", one.corrected());
      json.writeStringField("statement", one.statement().orElse(null));
      json.writeEndObject();
    }
    json.writeEndArray();
  }
}

package everypart.cli.report;

import com.fasterxml.jackson.core.JsonGenerator;
import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.agreement.ReliabilityCurve;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.study.statistics.Proportion;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/** Agreement as JSON. */
public final class AgreementJson {
  private AgreementJson() {}

  /**
   * Returns the figures.
   *
   * @param by columns by which the program's errors are told apart
   * @param describe returns what is known of a demand, for the list of disagreements
   */
  public static String of(
      Agreement agreement,
      Level level,
      List<String> by,
      Function<CodedDemand, Disagreement> describe) {
    return Json.pretty(json -> write(json, agreement, level, by, describe)) + "\n";
  }

  private static void write(
      JsonGenerator json,
      Agreement agreement,
      Level level,
      List<String> by,
      Function<CodedDemand, Disagreement> describe)
      throws IOException {
    Figures figures = new Figures(json, level);
    json.writeStartObject();
    json.writeStringField("program", Build.name());
    json.writeNumberField("level", level.value());
    sections(json, figures, agreement);
    groups(json, figures, agreement, by);
    json.writeArrayFieldStart("unsettled");
    for (CodedDemand demand : agreement.unsettled()) {
      write(json, demand, describe.apply(demand));
    }
    json.writeEndArray();
    json.writeArrayFieldStart("disagreements");
    for (CodedDemand demand : agreement.disagreements()) {
      write(json, demand, describe.apply(demand));
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  /** Writes the program's errors in groups of responses. */
  static void groups(JsonGenerator json, Figures figures, Agreement agreement, List<String> by)
      throws IOException {
    json.writeArrayFieldStart("groups");
    for (String column : by) {
      json.writeStartObject();
      json.writeStringField("column", column);
      json.writeArrayFieldStart("errors");
      for (Agreement.GroupErrors one : agreement.errorsBy(column)) {
        json.writeStartObject();
        json.writeStringField("value", one.value());
        json.writeNumberField("coded", one.coded());
        figures.estimate("overlooked", one.overlooked());
        figures.estimate("falseAlarms", one.falseAlarms());
        figures.estimate("tilt", one.tilt());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeArrayFieldStart("tilts");
      for (Agreement.GroupTilt one : agreement.tiltsBy(column)) {
        json.writeStartObject();
        json.writeStringField("first", one.first());
        json.writeStringField("second", one.second());
        figures.estimate("tilt", one.tilt());
        figures.method("method", one.method());
        json.writeStringField("warning", one.warning().orElse(null));
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /** Writes the fields that the summary of a study shares. */
  static void sections(JsonGenerator json, Figures figures, Agreement agreement)
      throws IOException {
    json.writeBooleanField("wholeSet", agreement.drawn());
    json.writeArrayFieldStart("coders");
    for (String coder : agreement.coders()) {
      json.writeString(coder);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("sections");
    for (Agreement.Section section : agreement.sections()) {
      json.writeStartObject();
      json.writeStringField("kind", section.kind().map(kind -> kind.word()).orElse(null));
      json.writeNumberField("coded", section.coded());
      json.writeNumberField("tied", section.tied());
      json.writeNumberField("unchecked", section.unchecked());
      figures.detection("sensitivity", agreement.sensitivity(section.kind()));
      figures.detection("specificity", agreement.specificity(section.kind()));
      json.writeArrayFieldStart("pairs");
      for (Agreement.Pair pair : section.pairs()) {
        write(json, figures, pair);
      }
      json.writeEndArray();
      if (section.people().isPresent()) {
        Agreement.People people = section.people().get();
        json.writeObjectFieldStart("people");
        json.writeNumberField("coders", people.coders());
        json.writeNumberField("demands", people.demands());
        figures.estimate("alpha", people.alpha());
        figures.estimate("ac1", people.ac1().map(found -> found.estimate()));
        json.writeEndObject();
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    write(json, figures, agreement.reliability());
  }

  private static void write(JsonGenerator json, Figures figures, Agreement.Pair pair)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("first", pair.first());
    json.writeStringField("second", pair.second());
    json.writeNumberField("n", pair.table().total());
    json.writeArrayFieldStart("categories");
    for (String category : pair.table().categories()) {
      json.writeString(category);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("table");
    for (List<Long> row : pair.table().counts()) {
      json.writeStartArray();
      for (Long count : row) {
        json.writeNumber(count);
      }
      json.writeEndArray();
    }
    json.writeEndArray();
    figures.share("agreement", pair.table().agreement(), pair.agreement());
    figures.estimate("kappa", pair.kappa().map(found -> found.estimate()));
    figures.number("kappaStandardError", pair.kappa().map(found -> found.standardError()));
    figures.estimate("alpha", pair.alpha());
    figures.estimate("ac1", pair.ac1().map(found -> found.estimate()));
    figures.number("ac1StandardError", pair.ac1().map(found -> found.standardError()));
    json.writeObjectFieldStart("missing");
    figures.share("precision", row(pair, 0, true), pair.missing().precision());
    figures.share("recall", row(pair, 0, false), pair.missing().recall());
    figures.share("specificity", row(pair, 1, false), pair.missing().specificity());
    figures.number("f1", pair.missing().f1().map(found -> found.value()));
    json.writeEndObject();
    figures.method("method", pair.method());
    json.writeEndObject();
  }

  /** Returns how many of a row, or of a column, of the table are on its diagonal. */
  private static Optional<Proportion> row(Agreement.Pair pair, int at, boolean row) {
    List<List<Long>> counts = pair.table().counts();
    long alike = counts.get(at).get(at);
    long other = row ? counts.get(at).get(1 - at) : counts.get(1 - at).get(at);
    return Proportion.of(alike, alike + other);
  }

  private static void write(JsonGenerator json, Figures figures, ReliabilityCurve curve)
      throws IOException {
    json.writeArrayFieldStart("reliability");
    for (ReliabilityCurve.Bin bin : curve.bins()) {
      json.writeStartObject();
      json.writeNumberField("low", bin.low());
      json.writeNumberField("high", bin.high());
      figures.number("meanConfidence", bin.meanConfidence());
      figures.proportion("right", Optional.of(bin.right()));
      json.writeEndObject();
    }
    json.writeEndArray();
    figures.number("brier", curve.brier());
    figures.number("calibrationError", curve.calibrationError());
  }

  private static void write(JsonGenerator json, CodedDemand demand, Disagreement one)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("responseId", demand.responseId());
    json.writeStringField("promptId", demand.promptId());
    json.writeStringField("part", demand.part());
    json.writeNumberField("demand", demand.demand());
    json.writeStringField("kind", demand.kind().word());
    json.writeStringField("verdict", demand.verdict().word());
    json.writeNumberField("confidence", demand.confidence());
    json.writeObjectFieldStart("codes");
    for (Map.Entry<String, Boolean> code : demand.codes().entrySet()) {
      json.writeNumberField(code.getKey(), code.getValue() ? 1 : 0);
    }
    json.writeEndObject();
    json.writeArrayFieldStart("quotes");
    for (String quote : one.quotes()) {
      json.writeString(quote);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("why");
    for (String why : one.why()) {
      json.writeString(why);
    }
    json.writeEndArray();
    json.writeStringField("text", one.text().orElse(null));
    json.writeEndObject();
  }
}

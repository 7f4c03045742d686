package everypart.cli.report;

import com.fasterxml.jackson.core.JsonGenerator;
import everypart.analyzer.prompt.Asking;
import everypart.analyzer.prompt.CountSource;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.Remark;
import everypart.analyzer.text.CodePoints;
import everypart.analyzer.text.Span;
import everypart.lexicon.Aspect;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;

/** The parts and demands of prompts as JSON. */
public final class OutlineJson {
  private OutlineJson() {}

  /** Returns one prompt on one line. */
  public static String line(Prompt prompt) {
    return Json.line(json -> write(json, prompt));
  }

  /** Returns prompts as an indented list. */
  public static String list(List<Prompt> prompts) {
    return Json.pretty(
        json -> {
          json.writeStartArray();
          for (Prompt prompt : prompts) {
            write(json, prompt);
          }
          json.writeEndArray();
        });
  }

  private static void write(JsonGenerator json, Prompt prompt) throws IOException {
    CodePoints points = new CodePoints(prompt.text());
    json.writeStartObject();
    json.writeStringField("promptId", prompt.id());
    if (prompt.title().isPresent()) {
      json.writeStringField("title", prompt.title().get());
    }
    json.writeArrayFieldStart("parts");
    for (Part part : prompt.parts()) {
      json.writeStartObject();
      json.writeStringField("label", part.label());
      Json.span(json, points, part.span());
      json.writeArrayFieldStart("demands");
      for (Demand demand : part.demands()) {
        json.writeStartObject();
        json.writeStringField("kind", demand.kind().word());
        json.writeStringField("verb", demand.verb());
        json.writeNumberField("count", demand.count());
        Json.span(json, points, demand.span());
        json.writeStringField("about", demand.about());
        json.writeStringField("why", demand.why());
        Json.standing(json, demand);
        asking(json, points, demand.asking());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("remarks");
    for (Remark remark : prompt.remarks()) {
      json.writeStartObject();
      json.writeStringField(
          "kind", remark.kind().name().toLowerCase(Locale.ROOT).replace('_', '-'));
      Json.span(json, points, remark.span());
      json.writeStringField("message", remark.message());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void asking(JsonGenerator json, CodePoints points, Asking asking)
      throws IOException {
    json.writeStringField("form", asking.form().word());
    if (!asking.options().isEmpty()) {
      json.writeArrayFieldStart("options");
      for (String option : asking.options()) {
        json.writeString(option);
      }
      json.writeEndArray();
    }
    if (asking.counted() != CountSource.UNSAID) {
      json.writeStringField("countFrom", asking.counted().name().toLowerCase(Locale.ROOT));
    }
    if (!asking.aspects().isEmpty()) {
      json.writeArrayFieldStart("aspects");
      for (Aspect aspect : new TreeSet<>(asking.aspects())) {
        json.writeString(aspect.word());
      }
      json.writeEndArray();
    }
    if (asking.claim().isPresent()) {
      json.writeObjectFieldStart("claim");
      json.writeStringField("part", asking.claim().get().part());
      json.writeNumberField("demand", asking.claim().get().place() + 1);
      json.writeEndObject();
    }
    if (asking.condition().isPresent()) {
      json.writeObjectFieldStart("condition");
      Json.span(json, points, asking.condition().get());
      json.writeEndObject();
    }
    if (asking.other().isPresent()) {
      json.writeObjectFieldStart("other");
      json.writeStringField("kind", asking.other().get().kind().word());
      json.writeNumberField("count", asking.other().get().count());
      json.writeEndObject();
    }
    spans(json, points, "alternatives", asking.alternatives());
    spans(json, points, "setUp", asking.setUp());
  }

  private static void spans(JsonGenerator json, CodePoints points, String name, List<Span> spans)
      throws IOException {
    if (spans.isEmpty()) {
      return;
    }
    json.writeArrayFieldStart(name);
    for (Span span : spans) {
      json.writeStartObject();
      Json.span(json, points, span);
      json.writeEndObject();
    }
    json.writeEndArray();
  }
}

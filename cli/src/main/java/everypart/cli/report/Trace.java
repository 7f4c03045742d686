package everypart.cli.report;

import com.fasterxml.jackson.core.JsonGenerator;
import everypart.analyzer.text.CodePoints;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Text;
import everypart.lexicon.ConceptMatch;
import everypart.lexicon.CueMatch;
import everypart.lexicon.Lexicon;
import everypart.lexicon.TokenRange;
import java.io.IOException;
import java.util.List;

/**
 * What the analyzer sees in a text: its sentences with the cues and concepts in each.
 *
 * @param id names the text
 * @param text the text
 * @param cues the cues of each sentence, in the sentences' order
 * @param concepts the concepts of each sentence, in the sentences' order
 */
public record Trace(
    String id, Text text, List<List<CueMatch>> cues, List<List<ConceptMatch>> concepts) {
  /** Copies the lists. */
  public Trace {
    cues = List.copyOf(cues);
    concepts = List.copyOf(concepts);
  }

  /** Looks at a text. */
  public static Trace of(String id, Text text, Lexicon lexicon) {
    return new Trace(
        id,
        text,
        text.sentences().stream().map(lexicon::cues).toList(),
        text.sentences().stream().map(lexicon::concepts).toList());
  }

  /** Returns the trace as one line of JSON. */
  public String jsonLine() {
    return Json.line(this::write);
  }

  /** Returns the trace as text for people: a line a sentence, then a line for each thing seen. */
  public String lines() {
    StringBuilder out = new StringBuilder(id).append('\n');
    for (int i = 0; i < text.sentences().size(); i++) {
      Sentence sentence = text.sentences().get(i);
      out.append("  ").append(Words.oneLine(sentence.span().of(text.raw()))).append('\n');
      for (CueMatch cue : cues.get(i)) {
        out.append("    ").append(cue.type().word()).append(" [").append(cue.cue()).append(']');
        if (cue.negated()) {
          out.append(" denied");
        }
        cue.cause().ifPresent(at -> out.append(" cause: ").append(quote(sentence, at)));
        cue.effect().ifPresent(at -> out.append(" effect: ").append(quote(sentence, at)));
        out.append('\n');
      }
      for (ConceptMatch concept : concepts.get(i)) {
        out.append("    concept ")
            .append(concept.concept())
            .append(": ")
            .append(quote(sentence, concept.at()))
            .append('\n');
      }
    }
    return out.toString();
  }

  private String quote(Sentence sentence, TokenRange at) {
    return "\"" + Words.oneLine(sentence.span(at).of(text.raw())) + "\"";
  }

  private void write(JsonGenerator json) throws IOException {
    CodePoints points = new CodePoints(text.raw());
    json.writeStartObject();
    json.writeStringField("id", id);
    json.writeArrayFieldStart("sentences");
    for (int i = 0; i < text.sentences().size(); i++) {
      Sentence sentence = text.sentences().get(i);
      json.writeStartObject();
      Json.span(json, points, sentence.span());
      json.writeArrayFieldStart("cues");
      for (CueMatch cue : cues.get(i)) {
        json.writeStartObject();
        json.writeStringField("type", cue.type().word());
        json.writeStringField("cue", cue.cue());
        json.writeStringField("family", cue.family());
        json.writeBooleanField("denied", cue.negated());
        Json.span(json, points, sentence.span(cue.at()));
        if (cue.cause().isPresent()) {
          pair(json, "cause", points, sentence, cue.cause().get());
        }
        if (cue.effect().isPresent()) {
          pair(json, "effect", points, sentence, cue.effect().get());
        }
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeArrayFieldStart("concepts");
      for (ConceptMatch concept : concepts.get(i)) {
        json.writeStartObject();
        json.writeStringField("concept", concept.concept());
        Json.span(json, points, sentence.span(concept.at()));
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void pair(
      JsonGenerator json, String name, CodePoints points, Sentence sentence, TokenRange at)
      throws IOException {
    json.writeArrayFieldStart(name);
    json.writeNumber(points.of(sentence.span(at).start()));
    json.writeNumber(points.of(sentence.span(at).end()));
    json.writeEndArray();
  }
}

package everypart.cli.report;

import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.text.CodePoints;
import everypart.analyzer.text.Span;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;

/** Writes the JSON of the public formats. */
final class Json {
  static final JsonMapper MAPPER =
      JsonMapper.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private Json() {}

  /** What writes one value. */
  interface Body {
    void write(JsonGenerator json) throws IOException;
  }

  /** Returns what a body writes, on one line. */
  static String line(Body body) {
    return string(body, false);
  }

  /** Returns what a body writes, indented for people. */
  static String pretty(Body body) {
    return string(body, true);
  }

  /** Returns what indents for people, with the same line ends on every system. */
  static DefaultPrettyPrinter indented() {
    return new DefaultPrettyPrinter().withObjectIndenter(new DefaultIndenter("  ", "\n"));
  }

  private static String string(Body body, boolean pretty) {
    StringWriter out = new StringWriter();
    try (JsonGenerator json = MAPPER.createGenerator(out)) {
      if (pretty) {
        json.setPrettyPrinter(indented());
      }
      body.write(json);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toString();
  }

  /** Writes the two ends of a span in code points. */
  static void span(JsonGenerator json, CodePoints points, Span span) throws IOException {
    json.writeNumberField("start", points.of(span.start()));
    json.writeNumberField("end", points.of(span.end()));
  }

  /** Writes whether a demand may be left out, where it may. */
  static void standing(JsonGenerator json, Demand demand) throws IOException {
    switch (demand.standing()) {
      case REQUIRED -> {}
      case OPTIONAL -> json.writeBooleanField("optional", true);
      case ALTERNATIVE -> json.writeBooleanField("alternative", true);
    }
  }
}

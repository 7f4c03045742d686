package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.text.Span;
import everypart.cli.report.ResultJson;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;

/** Checks that what a result says of a text is true of the text. */
final class Marks {
  private static final ObjectMapper JSON = new ObjectMapper();

  private Marks() {}

  /** Every mark stands inside the text, and the line of the result quotes what is there. */
  static void check(Coverage coverage) {
    int length = coverage.text().length();
    int evidence = 0;
    for (PartCoverage part : coverage.parts()) {
      for (DemandCoverage demand : part.demands()) {
        evidence += demand.evidence().size();
        for (Span span : demand.evidence()) {
          assertTrue(span.length() > 0 && span.end() <= length, span + " of " + length);
        }
        assertTrue(demand.confidence() >= 0 && demand.confidence() <= 1, demand.toString());
        assertTrue(demand.found() > 0 || demand.evidence().isEmpty(), demand.toString());
      }
    }
    try {
      JsonNode line = JSON.readTree(ResultJson.line(coverage, Map.of()));
      assertTrue(quotes(line, coverage.text()) >= evidence, line.toString());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns how many quotes there are; in files offsets count code points. */
  private static int quotes(JsonNode node, String text) {
    int quotes = 0;
    JsonNode quote = node.path("quote");
    if (quote.isTextual() && node.path("start").isInt()) {
      int[] signs = text.codePoints().toArray();
      int start = node.path("start").intValue();
      int end = node.path("end").intValue();
      assertTrue(0 <= start && start <= end && end <= signs.length, node.toString());
      quotes++;
      assertEquals(new String(signs, start, end - start), quote.textValue());
    }
    for (JsonNode child : node) {
      quotes += quotes(child, text);
    }
    return quotes;
  }
}

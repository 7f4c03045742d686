package everypart.analyzer.prompt;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import everypart.analyzer.text.Span;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Reads a prompt from YAML, the form in which an author can say more than the wording does: a
 * stimulus, model answers, demands and points.
 *
 * <p>The prompt's {@link Prompt#text} is its stimulus and its parts' wordings, one after the other,
 * an empty line between them; spans count in that.
 */
public final class PromptYaml {
  private static final YAMLMapper MAPPER = new YAMLMapper();

  private final PromptReader reader;

  /**
   * Makes a reader.
   *
   * @param reader reads the demands of parts that come without any
   */
  public PromptYaml(PromptReader reader) {
    this.reader = reader;
  }

  /**
   * Reads a prompt.
   *
   * @param fallbackId its id when the YAML gives none
   * @throws IllegalArgumentException with what is wrong and where when the YAML cannot be read
   */
  public Prompt read(String fallbackId, String yaml) {
    JsonNode root;
    try {
      root = MAPPER.readTree(yaml);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException(
          "line " + e.getLocation().getLineNr() + ": " + e.getOriginalMessage(), e);
    }
    if (root == null || !root.path("parts").isArray() || root.path("parts").isEmpty()) {
      throw new IllegalArgumentException(
          "a prompt in YAML needs a list \"parts\" with at least one part");
    }
    StringBuilder text = new StringBuilder();
    String stimulus = root.path("stimulus").asText("").strip();
    if (!stimulus.isEmpty()) {
      text.append(stimulus).append("\n\n");
    }
    List<Part> parts = new ArrayList<>();
    for (JsonNode node : root.path("parts")) {
      String wording = node.path("text").asText("").strip();
      int start = text.length();
      text.append(wording);
      Span span = new Span(start, text.length());
      text.append("\n\n");
      parts.add(
          new Part(
              node.path("label").asText(String.valueOf(parts.size() + 1)),
              wording,
              span,
              Optional.ofNullable(node.get("model_answer")).map(JsonNode::asText),
              demands(node.path("demands"), wording, start, stimulus)));
    }
    return new Prompt(
        root.path("id").asText(fallbackId),
        Optional.ofNullable(root.get("title")).map(JsonNode::asText),
        text.toString(),
        stimulus,
        parts,
        List.of());
  }

  private List<Demand> demands(JsonNode given, String wording, int offset, String stimulus) {
    List<Demand> demands = new ArrayList<>();
    if (!given.isArray()) {
      for (Demand demand : reader.demands(wording, stimulus)) {
        Span span = new Span(demand.span().start() + offset, demand.span().end() + offset);
        demands.add(
            new Demand(
                demand.kind(),
                demand.verb(),
                demand.count(),
                span,
                demand.about(),
                demand.points(),
                demand.why()));
      }
      return demands;
    }
    for (JsonNode node : given) {
      DemandKind kind = DemandKind.of(node.path("kind").asText(""));
      List<Point> points = new ArrayList<>();
      for (JsonNode point : node.path("points")) {
        List<String> phrases = new ArrayList<>();
        if (point.isArray()) {
          point.forEach(phrase -> phrases.add(phrase.asText()));
        } else {
          phrases.add(point.asText());
        }
        points.add(new Point(phrases));
      }
      demands.add(
          new Demand(
              kind,
              kind.word(),
              Math.max(1, node.path("count").asInt(1)),
              new Span(offset, offset + wording.length()),
              node.path("about").asText(""),
              points,
              "given by the prompt's author"));
    }
    return demands;
  }
}

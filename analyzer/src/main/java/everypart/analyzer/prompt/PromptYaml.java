package everypart.analyzer.prompt;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import everypart.analyzer.text.Span;
import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Reads a prompt from YAML, the form in which an author can say more than the wording does: a
 * stimulus, model answers, demands and points.
 *
 * <p>The prompt's {@link Prompt#text} is its stimulus and its parts' wordings, one after the other,
 * an empty line between them; spans count in that.
 */
public final class PromptYaml {
  /** A key that stands twice is told of: the first would be dropped without a word. */
  private static final YAMLMapper MAPPER =
      YAMLMapper.builder().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION).build();

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
          (e.getLocation() == null ? "" : "line " + e.getLocation().getLineNr() + ": ")
              + e.getOriginalMessage(),
          e);
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
    List<Integer> kindLines = linesOf("kind", yaml);
    List<Integer> labelLines = linesOf("label", yaml);
    int labels = 0;
    Set<String> seen = new HashSet<>();
    int[] demandsSeen = {0};
    List<Part> parts = new ArrayList<>();
    List<Remark> remarks = new ArrayList<>();
    for (JsonNode node : root.path("parts")) {
      String label = node.path("label").asText(String.valueOf(parts.size() + 1));
      int line = node.has("label") && labels < labelLines.size() ? labelLines.get(labels++) : 0;
      if (!seen.add(label)) {
        throw new IllegalArgumentException(
            at(line) + "two parts have the label \"" + label + "\"; give each its own");
      }
      String wording = node.path("text").asText("").strip();
      if (wording.isEmpty() && !node.path("demands").isArray()) {
        throw new IllegalArgumentException(
            at(line)
                + "part "
                + label
                + " has neither \"text\" nor \"demands\"; write one of them");
      }
      int start = text.length();
      text.append(wording);
      Span span = new Span(start, text.length());
      text.append("\n\n");
      Prompt read = reader.part(wording, stimulus);
      List<Demand> found =
          read.parts().stream()
              .flatMap(part -> part.demands().stream())
              .map(demand -> demand.moved(words -> shifted(words, start)))
              .toList();
      List<Demand> demands = found;
      if (node.path("demands").isArray()) {
        List<Demand> given = demands(node.path("demands"), wording, start, kindLines, demandsSeen);
        demands = GivenDemands.worded(given, found, span);
      } else {
        for (Remark remark : read.remarks()) {
          String message =
              remark.message().equals(PromptReader.NOTHING_ASKED)
                  ? "no demand was found in part " + label
                  : remark.message();
          remarks.add(new Remark(remark.kind(), shifted(remark.span(), start), message));
        }
      }
      boolean optional = flag(node, "optional", line);
      parts.add(
          new Part(
              label,
              wording,
              span,
              Optional.ofNullable(node.get("model_answer")).map(JsonNode::asText),
              optional
                  ? demands.stream().map(demand -> demand.as(Standing.OPTIONAL, "")).toList()
                  : demands));
    }
    return new Prompt(
        root.path("id").asText(fallbackId),
        Optional.ofNullable(root.get("title")).map(JsonNode::asText),
        text.toString(),
        stimulus,
        reader.tied(parts),
        remarks);
  }

  private static Span shifted(Span span, int by) {
    return new Span(span.start() + by, span.end() + by);
  }

  private static boolean flag(JsonNode node, String name, int line) {
    JsonNode value = node.path(name);
    if (!value.isMissingNode() && !value.isBoolean()) {
      throw new IllegalArgumentException(
          at(line) + "\"" + name + "\" is true or false, not \"" + value.asText() + "\"");
    }
    return value.asBoolean(false);
  }

  private static String at(int line) {
    return line > 0 ? "line " + line + ": " : "";
  }

  private static String kinds() {
    return "the kinds are "
        + Arrays.stream(DemandKind.values())
            .map(DemandKind::word)
            .collect(Collectors.joining(", "));
  }

  /** Returns the lines on which a field stands, counted from 1, in order. */
  private static List<Integer> linesOf(String field, String yaml) {
    List<Integer> lines = new ArrayList<>();
    try (JsonParser parser = MAPPER.createParser(yaml)) {
      for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
        if (token == JsonToken.FIELD_NAME && field.equals(parser.currentName())) {
          lines.add(parser.currentTokenLocation().getLineNr());
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return lines;
  }

  private List<Demand> demands(
      JsonNode given, String wording, int offset, List<Integer> kindLines, int[] seen) {
    List<Demand> demands = new ArrayList<>();
    int last = 0;
    for (JsonNode node : given) {
      if (!node.has("kind")) {
        throw new IllegalArgumentException(
            "a demand of the part \"" + wording + "\" has no \"kind\"; " + kinds());
      }
      int line = seen[0] < kindLines.size() ? kindLines.get(seen[0]) : 0;
      seen[0]++;
      DemandKind kind;
      try {
        kind = DemandKind.of(node.path("kind").asText());
      } catch (IllegalArgumentException e) {
        throw new IllegalArgumentException(at(line) + e.getMessage() + "; " + kinds(), e);
      }
      if (node.has("count") && node.path("count").asInt(0) < 1) {
        throw new IllegalArgumentException(
            at(line)
                + "the count of a demand is a whole number from 1, not \""
                + node.path("count").asText()
                + "\"");
      }
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
      String verb = node.path("verb").asText(kind.word());
      String words = node.path("words").asText("").strip();
      int at = words.isEmpty() ? -1 : wording.indexOf(words, last);
      at = at < 0 && !words.isEmpty() ? wording.indexOf(words) : at;
      if (at < 0 && !words.isEmpty()) {
        throw new IllegalArgumentException(
            at(line) + "the words \"" + words + "\" do not stand in the part's text");
      }
      last = Math.max(last, at);
      Span span =
          at < 0
              ? new Span(offset, offset + wording.length())
              : new Span(offset + at, offset + at + words.length());
      Standing standing =
          flag(node, "optional", line)
              ? Standing.OPTIONAL
              : flag(node, "alternative", line) ? Standing.ALTERNATIVE : Standing.REQUIRED;
      demands.add(
          new Demand(
              kind,
              verb,
              Math.max(1, node.path("count").asInt(1)),
              span,
              node.path("about").asText(""),
              points,
              "given by the prompt's author",
              standing,
              Asking.of(kind)
                  .withCounted(node.has("count") ? CountSource.AUTHOR : CountSource.UNSAID)));
    }
    return demands;
  }
}

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
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
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

  private static final Pattern TWICE = Pattern.compile("Duplicate field '(.*?)'");

  private final PromptReader reader;

  /**
   * Makes a reader.
   *
   * @param reader reads the demands of parts that come without any, and the wording of those given
   */
  public PromptYaml(PromptReader reader) {
    this.reader = reader;
  }

  /**
   * Reads a prompt.
   *
   * @param fallbackId its id when the YAML gives none
   * @throws IllegalArgumentException with the line, what is wrong there and how to mend it
   */
  public Prompt read(String fallbackId, String yaml) {
    JsonNode root;
    Map<String, Integer> lines;
    try {
      root = MAPPER.readTree(yaml);
      lines = lines(yaml);
    } catch (JsonProcessingException e) {
      String invalid = invalid(e.getOriginalMessage());
      throw new IllegalArgumentException(
          e.getLocation() == null
              ? invalid
              : Sayings.of("yaml.line", e.getLocation().getLineNr(), invalid),
          e);
    }
    return new Pass(lines).prompt(fallbackId, root);
  }

  private static String invalid(String message) {
    Matcher twice = TWICE.matcher(message);
    return twice.lookingAt()
        ? Sayings.of("yaml.twice", twice.group(1))
        : Sayings.of("yaml.invalid");
  }

  /** Returns the line, from 1, on which each value begins, by its path. */
  private static Map<String, Integer> lines(String yaml) throws JsonProcessingException {
    Map<String, Integer> lines = new HashMap<>();
    try (JsonParser parser = MAPPER.createParser(yaml)) {
      for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
        lines.putIfAbsent(
            parser.getParsingContext().pathAsPointer().toString(),
            parser.currentTokenLocation().getLineNr());
      }
    } catch (JsonProcessingException e) {
      // What follows the first document is not read, but may be broken.
      throw e;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return lines;
  }

  /** The reading of one file. */
  private final class Pass {
    private final Map<String, Integer> lines;
    private final StringBuilder text = new StringBuilder();
    private final List<Part> parts = new ArrayList<>();
    private final List<Remark> remarks = new ArrayList<>();
    private final Set<String> labels = new HashSet<>();

    Pass(Map<String, Integer> lines) {
      this.lines = lines;
    }

    Prompt prompt(String fallbackId, JsonNode root) {
      if (root == null || !root.path("parts").isArray() || root.path("parts").isEmpty()) {
        throw wrong("/parts", Sayings.of("yaml.noParts"));
      }
      String stimulus = string(root, "stimulus", "").strip();
      if (!stimulus.isEmpty()) {
        text.append(stimulus).append("\n\n");
      }
      for (int i = 0; i < root.path("parts").size(); i++) {
        addPart("/parts/" + i, root.path("parts").get(i), stimulus);
      }
      return new Prompt(
          root.path("id").asText(fallbackId),
          Optional.ofNullable(root.get("title")).map(JsonNode::asText),
          text.toString(),
          stimulus,
          reader.tied(parts),
          remarks);
    }

    private void addPart(String place, JsonNode node, String stimulus) {
      if (!node.isObject()) {
        throw wrong(place, Sayings.of("yaml.noPart"));
      }
      String label = node.path("label").asText(String.valueOf(parts.size() + 1));
      if (!labels.add(label)) {
        throw wrong(place + "/label", Sayings.of("yaml.sameLabel", label));
      }
      String wording = string(node, "text", place).strip();
      boolean given = node.has("demands");
      if (given && !node.get("demands").isArray()) {
        throw wrong(place + "/demands", Sayings.of("yaml.demandsNoList"));
      }
      if (wording.isEmpty() && !given) {
        throw wrong(place, Sayings.of("yaml.emptyPart", label));
      }
      int start = text.length();
      text.append(wording);
      Span span = new Span(start, text.length());
      text.append("\n\n");
      Prompt read = reader.part(wording, stimulus);
      List<Demand> demands =
          read.parts().stream()
              .flatMap(part -> part.demands().stream())
              .map(demand -> demand.moved(words -> shifted(words, start)))
              .toList();
      if (given) {
        demands =
            GivenDemands.worded(demands(place, node.get("demands"), wording, start), demands, span);
      } else {
        for (Remark remark : read.remarks()) {
          String message =
              remark.message().equals(PromptReader.NOTHING_ASKED)
                  ? Sayings.of("remark.nothingAskedInPart", label)
                  : remark.message();
          remarks.add(new Remark(remark.kind(), shifted(remark.span(), start), message));
        }
      }
      boolean optional = flag(node, "optional", place);
      parts.add(
          new Part(
              label,
              wording,
              span,
              node.has("model_answer")
                  ? Optional.of(string(node, "model_answer", place))
                  : Optional.empty(),
              optional
                  ? demands.stream().map(demand -> demand.as(Standing.OPTIONAL, "")).toList()
                  : demands));
    }

    private List<Demand> demands(String part, JsonNode given, String wording, int offset) {
      List<Demand> demands = new ArrayList<>();
      int last = 0;
      for (int i = 0; i < given.size(); i++) {
        JsonNode node = given.get(i);
        String place = part + "/demands/" + i;
        if (!node.has("kind")) {
          throw wrong(place, Sayings.of("yaml.noKind", wording, kinds()));
        }
        DemandKind kind;
        try {
          kind = DemandKind.of(node.path("kind").asText());
        } catch (IllegalArgumentException e) {
          throw wrong(
              place + "/kind",
              Sayings.of("yaml.wrongKind", String.valueOf(e.getMessage()), kinds()));
        }
        JsonNode count = node.path("count");
        if (!count.isMissingNode() && !(count.isInt() && count.asInt() >= 1)) {
          throw wrong(place + "/count", Sayings.of("yaml.wrongCount", count.asText()));
        }
        String words = node.path("words").asText("").strip();
        int at = words.isEmpty() ? -1 : wording.indexOf(words, last);
        at = at < 0 && !words.isEmpty() ? wording.indexOf(words) : at;
        if (at < 0 && !words.isEmpty()) {
          throw wrong(place + "/words", Sayings.of("yaml.notTheWords", words));
        }
        last = Math.max(last, at);
        demands.add(
            new Demand(
                kind,
                node.path("verb").asText(kind.word()),
                count.asInt(1),
                at < 0
                    ? new Span(offset, offset + wording.length())
                    : new Span(offset + at, offset + at + words.length()),
                node.path("about").asText(""),
                points(place + "/points", node.path("points")),
                Sayings.of("yaml.given"),
                flag(node, "optional", place)
                    ? Standing.OPTIONAL
                    : flag(node, "alternative", place) ? Standing.ALTERNATIVE : Standing.REQUIRED,
                Asking.of(kind)
                    .withCounted(count.isMissingNode() ? CountSource.UNSAID : CountSource.AUTHOR)));
      }
      return demands;
    }

    private List<Point> points(String place, JsonNode given) {
      if (!given.isMissingNode() && !given.isArray()) {
        throw wrong(place, Sayings.of("yaml.pointsNoList"));
      }
      List<Point> points = new ArrayList<>();
      for (int i = 0; i < given.size(); i++) {
        List<String> phrases = new ArrayList<>();
        if (given.get(i).isArray()) {
          given.get(i).forEach(phrase -> phrases.add(phrase.asText()));
        } else {
          phrases.add(given.get(i).asText());
        }
        if (phrases.stream().allMatch(String::isBlank)) {
          throw wrong(place + "/" + i, Sayings.of("yaml.emptyPoint"));
        }
        points.add(new Point(phrases));
      }
      return points;
    }

    private String string(JsonNode node, String name, String place) {
      JsonNode value = node.path(name);
      if (value.isContainerNode()) {
        throw wrong(place + "/" + name, Sayings.of("yaml.noText", name));
      }
      return value.asText("");
    }

    private boolean flag(JsonNode node, String name, String place) {
      JsonNode value = node.path(name);
      if (!value.isMissingNode() && !value.isBoolean()) {
        throw wrong(place + "/" + name, Sayings.of("yaml.noFlag", name, value.asText()));
      }
      return value.asBoolean(false);
    }

    private IllegalArgumentException wrong(String place, String message) {
      int line = lines.getOrDefault(place, 0);
      return new IllegalArgumentException(
          line > 0 ? Sayings.of("yaml.line", line, message) : message);
    }
  }

  private static Span shifted(Span span, int by) {
    return new Span(span.start() + by, span.end() + by);
  }

  private static String kinds() {
    return Sayings.of(
        "yaml.kinds",
        Arrays.stream(DemandKind.values()).map(DemandKind::word).collect(Collectors.joining(", ")));
  }
}

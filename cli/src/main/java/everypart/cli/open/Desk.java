package everypart.cli.open;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptYaml;
import everypart.cli.intake.document.Document;
import everypart.cli.intake.document.DocumentException;
import everypart.cli.intake.document.Documents;
import everypart.cli.intake.document.Limits;
import everypart.cli.report.OutlineYaml;
import everypart.cli.report.PageData;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;

/**
 * Answers what a page asks about one prompt and one answer. It keeps nothing but a few prompts that
 * were read, so that a keystroke need not read them again.
 */
final class Desk {
  static final JsonMapper JSON = new JsonMapper();

  private static final long LARGEST_FILE = 40L << 20;
  private static final int MOST_KEPT = 32;
  private static final int MOST_PAGES = 32;
  private static final int WARMING = 20;
  private static final String DEFAULT_ID = "question";

  private final CoverageAnalyzer analyzer;
  private final CoverageAnalyzer quick;
  private final PromptYaml yaml;
  private final Documents answers = new Documents();
  private final Documents questions = Documents.withMarkdown(Limits.USUAL);

  /** Prompts as they were read, by the form in which the page holds them. */
  private final Map<String, Prompt> known =
      Collections.synchronizedMap(
          new LinkedHashMap<>(16, 0.75f, true) {
            private static final long serialVersionUID = 1;

            @Override
            protected boolean removeEldestEntry(Map.Entry<String, Prompt> eldest) {
              return size() > MOST_KEPT;
            }
          });

  /** What each page asked last: where it has asked anew, the reader need not finish. */
  private final Map<String, Object> newest =
      Collections.synchronizedMap(
          new LinkedHashMap<>(16, 0.75f, true) {
            @Override
            protected boolean removeEldestEntry(Map.Entry<String, Object> eldest) {
              return size() > MOST_PAGES;
            }
          });

  /**
   * Makes it.
   *
   * @param quick judges what is being typed, where the analyzer is too slow for that
   */
  Desk(CoverageAnalyzer analyzer, CoverageAnalyzer quick) {
    this.analyzer = analyzer;
    this.quick = quick;
    this.yaml = new PromptYaml(analyzer.prompts());
  }

  /** Reads what is read only once: models, lists of words, code. */
  void warm() {
    String question = "(a) Name it. (b) Explain why it moves.";
    Prompt prompt = analyzer.prompts().read(DEFAULT_ID, question);
    for (int i = 0; i < WARMING; i++) {
      quick.analyze(prompt, "answer", "(a) A wheel. (b) It moves because the wind pushes it.");
    }
  }

  String answer(LocalServer.Asked asked) throws IOException, Refusal {
    if (asked.is("POST", "prompt")) {
      return prompt(json(asked.text())).toString();
    }
    if (asked.is("POST", "judge")) {
      return judge(json(asked.text())).toString();
    }
    if (asked.is("POST", "yaml")) {
      Prompt prompt = prompt(json(asked.text()).path("model").asText());
      return JSON.createObjectNode().put("yaml", yaml(prompt)).toString();
    }
    if (asked.is("POST", "file")) {
      return file(asked).toString();
    }
    throw new Refusal(404, Sayings.of("refused.place"));
  }

  static JsonNode json(String text) throws Refusal {
    try {
      return JSON.readTree(text);
    } catch (JsonProcessingException e) {
      throw new Refusal(400, Sayings.of("refused.form"));
    }
  }

  /**
   * Reads a prompt from its wording ({@code text}) or from the page's form of it ({@code model}).
   */
  private ObjectNode prompt(JsonNode asked) throws Refusal {
    Prompt prompt;
    if (asked.has("model")) {
      prompt = prompt(asked.path("model").asText());
    } else {
      String text = asked.path("text").asText();
      if (text.isBlank()) {
        throw new Refusal(422, Sayings.of("prompt.empty"));
      }
      String id = asked.path("id").asText("").isBlank() ? DEFAULT_ID : asked.path("id").asText();
      prompt =
          asked.path("yaml").asBoolean() ? readYaml(id, text) : analyzer.prompts().read(id, text);
    }
    return shown(prompt);
  }

  /** Returns a prompt as the page shows it, and the form in which the page hands it back. */
  ObjectNode shown(Prompt prompt) {
    String model = PageData.model(prompt).toString();
    known.put(model, prompt);
    ObjectNode node = JSON.createObjectNode();
    node.put("model", model);
    node.set("view", PageData.prompt(prompt));
    ArrayNode doubts = node.putArray("doubts");
    PageData.doubts(prompt).forEach(doubts::add);
    return node;
  }

  private Prompt readYaml(String id, String text) throws Refusal {
    try {
      return yaml.read(id, text);
    } catch (IllegalArgumentException e) {
      throw new Refusal(422, Sayings.of("prompt.notPrompt", String.valueOf(e.getMessage())));
    }
  }

  /** Returns the prompt that a page's form of it stands for. */
  Prompt prompt(String model) throws Refusal {
    Prompt read = known.get(model);
    if (read != null) {
      return read;
    }
    for (JsonNode part : json(model).path("parts")) {
      for (JsonNode demand : part.path("demands")) {
        int count = demand.path("count").asInt(1);
        if (count < 1 || count > 99) {
          throw new Refusal(422, Sayings.of("prompt.count"));
        }
      }
    }
    Prompt prompt = readYaml(DEFAULT_ID, model);
    known.put(model, prompt);
    return prompt;
  }

  private ObjectNode judge(JsonNode asked) throws Refusal {
    Prompt prompt = prompt(asked.path("model").asText());
    String page = asked.path("page").asText();
    if (page.isEmpty()) {
      return judge(asked, prompt);
    }
    Object own = new Object();
    newest.put(page, own);
    try {
      return RememberingReader.whileWanted(
          () -> newest.get(page) == own, () -> judge(asked, prompt));
    } catch (CancellationException e) {
      throw new Refusal(409, Sayings.of("refused.newer"));
    }
  }

  private ObjectNode judge(JsonNode asked, Prompt prompt) {
    CoverageAnalyzer by = asked.path("quick").asBoolean() ? quick : analyzer;
    Coverage coverage = by.analyze(prompt, "answer", asked.path("text").asText());
    ObjectNode node = judged(coverage);
    if (asked.has("earlier")) {
      Coverage earlier = by.analyze(prompt, "answer", asked.path("earlier").asText());
      node.set("changes", PageData.changes(earlier, coverage));
    }
    return node;
  }

  private static ObjectNode judged(Coverage coverage) {
    List<String> reasons = new ArrayList<>();
    ObjectNode node = JSON.createObjectNode();
    node.set(
        "row",
        PageData.result(
            coverage,
            reason -> {
              int at = reasons.indexOf(reason);
              if (at < 0) {
                reasons.add(reason);
              }
              return at < 0 ? reasons.size() - 1 : at;
            }));
    ArrayNode said = node.putArray("reasons");
    reasons.forEach(said::add);
    return node;
  }

  static String yaml(Prompt prompt) {
    StringWriter text = new StringWriter();
    PrintWriter out = new PrintWriter(text);
    OutlineYaml.write(prompt, Optional.empty(), out);
    out.flush();
    return text.toString().replace("\r\n", "\n");
  }

  /** Turns a dropped file into text; {@code ?name=...&as=prompt}. */
  private ObjectNode file(LocalServer.Asked asked) throws IOException, Refusal {
    Map<String, String> query = query(asked);
    String name = query.getOrDefault("name", "");
    byte[] bytes = asked.bytes(LARGEST_FILE);
    String ending = name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
    boolean isYaml = ending.equals("yaml") || ending.equals("yml");
    ObjectNode node = JSON.createObjectNode();
    node.put("id", stem(name));
    node.put("yaml", isYaml);
    ArrayNode notes = node.putArray("notes");
    try {
      Documents documents = "prompt".equals(query.get("as")) ? questions : answers;
      Document document = documents.read(isYaml ? stem(name) + ".txt" : name, bytes);
      if (document.text().isBlank()) {
        throw new Refusal(422, Sayings.of("file.empty", name));
      }
      document
          .remarks()
          .forEach(one -> notes.add(Sayings.of("file.unreadable", name, one.what(), one.mend())));
      return node.put("text", document.text());
    } catch (DocumentException e) {
      throw new Refusal(
          422, Sayings.of("file.unreadable", name, e.remark().what(), e.remark().mend()));
    }
  }

  private static String stem(String name) {
    int dot = name.lastIndexOf('.');
    return dot <= 0 ? name : name.substring(0, dot);
  }

  static Map<String, String> query(LocalServer.Asked asked) {
    Map<String, String> values = new LinkedHashMap<>();
    String query = asked.exchange().getRequestURI().getRawQuery();
    for (String one : query == null ? new String[0] : query.split("&")) {
      int at = one.indexOf('=');
      if (at > 0) {
        values.put(
            one.substring(0, at), URLDecoder.decode(one.substring(at + 1), StandardCharsets.UTF_8));
      }
    }
    return values;
  }
}

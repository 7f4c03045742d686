package everypart.cli.open;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptYaml;
import everypart.cli.intake.Corrections;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.report.ClassFiles;
import everypart.cli.report.PageData;
import everypart.cli.report.ScreenHtml;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/**
 * A class that is open: its prompts, its answers as given and as judged, and what its teacher
 * decided.
 */
final class ClassSet {
  private static final String NOTHING =
      "{\"format\":\"everypart-corrections\",\"version\":1,\"responses\":[]}";

  private final CoverageAnalyzer analyzer;
  private final List<Prompt> prompts;
  private final String name;
  private final List<Answer> answers = new ArrayList<>();
  private final List<Coverage> judged = new ArrayList<>();
  private final List<InputProblem> problems = new ArrayList<>();
  private String state = NOTHING;
  private Corrections corrections = Corrections.NONE;

  /** An answer as it came. */
  record Answer(String id, String promptId, String text, Map<String, String> groups) {}

  ClassSet(CoverageAnalyzer analyzer, List<Prompt> prompts, String name) {
    this.analyzer = analyzer;
    this.prompts = List.copyOf(prompts);
    this.name = safe(name);
  }

  private static String safe(String name) {
    String plain = name.replaceAll("[^\\p{L}\\p{N} _.-]", "").strip();
    plain = plain.substring(0, Math.min(60, plain.length()));
    return plain.isEmpty() || plain.startsWith(".") ? "class" : plain;
  }

  /** Reads a class from the data of its page; its answers are judged anew. */
  static ClassSet of(CoverageAnalyzer analyzer, JsonNode data) throws Refusal {
    PromptYaml yaml = new PromptYaml(analyzer.prompts());
    List<Prompt> prompts = new ArrayList<>();
    for (JsonNode one : data.path("prompts")) {
      prompts.add(yaml.read(one.path("id").asText(), one.path("yaml").asText()));
    }
    if (prompts.isEmpty()) {
      throw new Refusal(422, Sayings.of("class.notSaved"));
    }
    ClassSet set =
        new ClassSet(
            analyzer,
            prompts,
            data.path("name").asText(prompts.get(0).title().orElse(prompts.get(0).id())));
    for (JsonNode prompt : data.path("prompts")) {
      for (JsonNode row : prompt.path("rows")) {
        Map<String, String> groups = new LinkedHashMap<>();
        row.path("g")
            .properties()
            .forEach(one -> groups.put(one.getKey(), one.getValue().asText()));
        set.add(
            new Answer(
                row.path("id").asText(),
                prompt.path("id").asText(),
                row.path("t").asText(),
                groups));
      }
    }
    PageData.problems(data.path("problems")).forEach(set::add);
    set.keep(corrections(data).toString());
    return set;
  }

  /** Returns the decisions that stand in a page's data, in the form of a corrections file. */
  private static ObjectNode corrections(JsonNode data) {
    ObjectNode file = Desk.JSON.createObjectNode();
    file.put("format", "everypart-corrections").put("version", 1);
    ArrayNode responses = file.putArray("responses");
    for (JsonNode prompt : data.path("prompts")) {
      for (JsonNode row : prompt.path("rows")) {
        ObjectNode one = Desk.JSON.createObjectNode();
        one.put("promptId", prompt.path("id").asText());
        one.put("responseId", row.path("id").asText());
        one.put("read", row.path("read").asBoolean());
        one.put("comment", row.path("note").asText());
        ArrayNode demands = one.putArray("demands");
        for (int at = 0; at < row.path("c").size(); at++) {
          JsonNode cell = row.path("c").path(at);
          JsonNode demand = prompt.path("demands").path(at);
          boolean overruled = !cell.path("v").equals(cell.path("p"));
          if (overruled || cell.has("n") || row.path("read").asBoolean()) {
            demands
                .addObject()
                .put("part", demand.path("part").asText())
                .put("demand", demand.path("number").asInt())
                .put("kind", demand.path("kind").asText())
                .put("program", cell.path("p").asText())
                .put("verdict", cell.path("v").asText())
                .put("overruled", overruled)
                .put("comment", cell.path("n").asText());
          }
        }
        responses.add(one);
      }
    }
    return file;
  }

  synchronized void add(Answer answer) {
    Prompt prompt =
        prompts.stream()
            .filter(one -> one.id().equals(answer.promptId()))
            .findFirst()
            .orElse(prompts.get(0));
    judged.add(analyzer.analyze(prompt, answer.id(), answer.text()).withoutTokens());
    answers.add(answer);
  }

  synchronized void add(InputProblem problem) {
    problems.add(problem);
  }

  String name() {
    return name;
  }

  List<Prompt> prompts() {
    return prompts;
  }

  synchronized List<Answer> answers() {
    return List.copyOf(answers);
  }

  synchronized List<InputProblem> problems() {
    return List.copyOf(problems);
  }

  /** Keeps what the teacher decided, in the form of a corrections file. */
  synchronized void keep(String json) throws Refusal {
    corrections = ClassDesk.corrections(json, prompts);
    state = json;
  }

  /** Takes over from the same class under another reading of its prompt what still has a place. */
  synchronized void keepWhatFits(ClassSet old) throws Refusal {
    JsonNode file = Desk.json(old.state);
    if (!(file instanceof ObjectNode node)) {
      return;
    }
    node.remove("prompts");
    for (JsonNode one : node.path("responses")) {
      ((ObjectNode) one).put("promptId", prompts.get(0).id());
      ((ObjectNode) one).put("read", false);
      var demands = one.path("demands").elements();
      while (demands.hasNext()) {
        JsonNode demand = demands.next();
        if (!fits(demand)) {
          demands.remove();
        }
      }
    }
    try {
      corrections = Corrections.of(node.toString(), prompts);
      state = node.toString();
    } catch (InputException nothingFits) {
      corrections = Corrections.NONE;
    }
  }

  private boolean fits(JsonNode demand) {
    int number = demand.path("demand").asInt();
    for (Part part : prompts.get(0).parts()) {
      if (part.label().equals(demand.path("part").asText())) {
        return number <= part.demands().size()
            && part.demands().get(number - 1).kind().word().equals(demand.path("kind").asText());
      }
    }
    return false;
  }

  /**
   * Returns the page.
   *
   * @param served whether it is to send what is changed in it to this program
   */
  synchronized String page(boolean served) {
    ScreenHtml page = new ScreenHtml(prompts);
    for (int i = 0; i < judged.size(); i++) {
      Coverage program = judged.get(i);
      page.add(
          corrections.apply(program),
          program,
          Optional.empty(),
          answers.get(i).groups(),
          corrections.of(program));
    }
    return page.page(
        problems, served ? Optional.of(new ScreenHtml.Served("./", name)) : Optional.empty());
  }

  /** Returns the folder that {@code screen} would have written, as a zip file. */
  synchronized byte[] zip() throws IOException {
    ClassFiles files = new ClassFiles(prompts);
    for (int i = 0; i < judged.size(); i++) {
      files.add(judged.get(i), corrections, answers.get(i).groups());
    }
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
      for (Map.Entry<String, byte[]> file : files.files(problems).entrySet()) {
        put(zip, file.getKey(), file.getValue());
      }
      put(zip, "corrections.json", LocalServer.bytes(state));
      for (Prompt prompt : prompts) {
        put(zip, safe(prompt.id()) + ".yaml", LocalServer.bytes(Desk.yaml(prompt)));
      }
    }
    return bytes.toByteArray();
  }

  private void put(ZipOutputStream zip, String file, byte[] content) throws IOException {
    zip.putNextEntry(new ZipEntry(name + "/" + file));
    zip.write(content);
    zip.closeEntry();
  }
}

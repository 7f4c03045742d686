package everypart.cli.report;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import everypart.analyzer.assign.Stretch;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Span;
import everypart.cli.intake.Corrections;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Place;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.ToIntFunction;

/**
 * Prompts and results as the scripts of the pages work on them. Places count in {@code char}s,
 * which is what scripts count in. Names of fields are short, since a page may hold thousands of
 * results.
 */
public final class PageData {
  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;
  private static final int LONGEST_HEAD = 48;
  private static final int LONGEST_QUOTE = 240;

  private PageData() {}

  /**
   * Returns a prompt: its wording, its parts and its demands, each with the words it was read from.
   */
  public static ObjectNode prompt(Prompt prompt) {
    ObjectNode node = JSON.objectNode();
    node.put("id", prompt.id());
    node.put("name", prompt.title().orElse(prompt.id()));
    node.put("stimulus", prompt.stimulus());
    node.put("digest", Corrections.wording(prompt));
    StringWriter yaml = new StringWriter();
    PrintWriter out = new PrintWriter(yaml);
    OutlineYaml.write(prompt, Optional.empty(), out);
    out.flush();
    node.put("yaml", yaml.toString().replace("\r\n", "\n"));
    ArrayNode parts = node.putArray("parts");
    ArrayNode demands = node.putArray("demands");
    for (Part part : prompt.parts()) {
      for (int i = 0; i < part.demands().size(); i++) {
        Demand demand = part.demands().get(i);
        ObjectNode one = demands.addObject();
        one.put("code", Words.code(prompt, part, i + 1));
        one.put("part", part.label());
        one.put("number", i + 1);
        one.put("pi", parts.size());
        one.put("kind", demand.kind().word());
        one.put("name", demand.kind().word());
        one.put("count", demand.count());
        one.put("about", Words.oneLine(demand.about()));
        String said = words(prompt, part, demand);
        one.put("words", Words.shortened(said, LONGEST_HEAD));
        one.put("full", said);
        one.put("from", from(prompt, part, demand));
        one.put("why", demand.why());
        one.put("standing", demand.standing().name().toLowerCase(Locale.ROOT));
        one.put("next", NextStep.of(demand.kind()));
      }
      ObjectNode one = parts.addObject();
      one.put("label", part.label());
      one.put("text", Words.oneLine(part.text()));
    }
    return node;
  }

  /**
   * Returns a prompt in the form of a prompt file, as JSON, which a page can change and hand back:
   * {@link everypart.analyzer.prompt.PromptYaml} reads it.
   */
  public static ObjectNode model(Prompt prompt) {
    ObjectNode node = JSON.objectNode();
    node.put("id", prompt.id());
    prompt.title().ifPresent(title -> node.put("title", title));
    if (!prompt.stimulus().isBlank()) {
      node.put("stimulus", prompt.stimulus());
    }
    ArrayNode parts = node.putArray("parts");
    for (Part part : prompt.parts()) {
      ObjectNode one = parts.addObject();
      one.put("label", part.label());
      one.put("text", part.text().strip());
      part.modelAnswer().ifPresent(answer -> one.put("model_answer", answer));
      ArrayNode demands = one.putArray("demands");
      part.demands().forEach(demand -> demands.add(model(prompt, part, demand)));
    }
    return node;
  }

  private static ObjectNode model(Prompt prompt, Part part, Demand demand) {
    ObjectNode node = JSON.objectNode();
    node.put("kind", demand.kind().word());
    node.put("about", demand.about());
    node.put("count", demand.count());
    node.put("verb", demand.verb());
    String words = demand.span().of(prompt.text()).strip();
    if (!words.isEmpty() && part.text().contains(words)) {
      node.put("words", words);
    }
    switch (demand.standing()) {
      case OPTIONAL -> node.put("optional", true);
      case ALTERNATIVE -> node.put("alternative", true);
      case REQUIRED -> {}
    }
    if (!demand.points().isEmpty()) {
      ArrayNode points = node.putArray("points");
      demand.points().forEach(point -> point.phrases().forEach(points.addArray()::add));
    }
    return node;
  }

  /** Returns what could not be read as given, so that a page that is opened again still says it. */
  static ArrayNode problems(List<InputProblem> problems) {
    ArrayNode all = JSON.arrayNode();
    for (InputProblem problem : problems) {
      ObjectNode one = all.addObject().put("source", problem.place().source());
      problem.place().line().ifPresent(line -> one.put("line", line));
      one.put("what", problem.what()).put("mend", problem.mend());
      if (problem.weight() == InputProblem.Weight.NOTE) {
        one.put("note", true);
      }
    }
    return all;
  }

  /** Returns problems that stand in a page. */
  public static List<InputProblem> problems(JsonNode page) {
    List<InputProblem> problems = new ArrayList<>();
    for (JsonNode one : page) {
      Place file = Place.file(one.path("source").asText());
      problems.add(
          new InputProblem(
              one.has("line") ? file.atLine(one.path("line").asLong()) : file,
              one.path("what").asText(),
              one.path("mend").asText(),
              one.path("note").asBoolean() ? InputProblem.Weight.NOTE : InputProblem.Weight.FAULT));
    }
    return problems;
  }

  /** Returns what a person should look at before relying on the reading of a prompt. */
  public static List<String> doubts(Prompt prompt) {
    return Doubts.of(prompt);
  }

  /** Returns what became of each demand from an earlier draft to a later one. */
  public static ArrayNode changes(Coverage earlier, Coverage now) {
    ArrayNode changes = JSON.arrayNode();
    for (Revision.Item item : new Revision(earlier, now).items()) {
      changes.add(item.change().word());
    }
    return changes;
  }

  /** Returns the words of the prompt that a demand was read from. */
  private static String from(Prompt prompt, Part part, Demand demand) {
    String words = Words.oneLine(demand.span().of(prompt.text()));
    return Words.shortened(words.isEmpty() ? Words.oneLine(part.text()) : words, LONGEST_QUOTE);
  }

  /**
   * Returns a demand in a few words: those of the prompt, unless they are those of the whole part,
   * which may hold several demands.
   */
  static String words(Prompt prompt, Part part, Demand demand) {
    String words =
        Words.oneLine(demand.span().of(prompt.text())).replaceAll("(?<![.;:,])[.;:,]+$", "");
    boolean whole =
        part.demands().size() > 1
            && words.equals(Words.oneLine(part.text()).replaceAll("(?<![.;:,])[.;:,]+$", ""));
    String said =
        words.isEmpty() || whole
            ? Words.demand(demand)
            : words.substring(0, 1).toLowerCase(Locale.ROOT) + words.substring(1);
    return Words.shortened(said, LONGEST_QUOTE);
  }

  /**
   * Returns a result.
   *
   * @param coverage the result with the teacher's verdicts
   * @param program the program's own
   * @param own what the teacher wrote beside it
   * @param reasons gives each wording of a reason its number
   */
  static ObjectNode row(
      Coverage coverage,
      Coverage program,
      Corrections.Own own,
      Iterable<String> remarks,
      ToIntFunction<String> reasons) {
    ObjectNode row = JSON.objectNode();
    row.put("id", coverage.responseId());
    row.put("t", coverage.text());
    ArrayNode places = JSON.arrayNode();
    String before = "";
    for (Stretch stretch : coverage.assignment().stretches()) {
      String place = stretch.part().orElse("");
      if (!place.equals(before) || places.isEmpty()) {
        ArrayNode one = places.addArray();
        one.add(stretch.sentence().start());
        stretch.part().ifPresentOrElse(one::add, one::addNull);
        before = place;
      }
    }
    row.set("m", places);
    ArrayNode notes = JSON.arrayNode();
    remarks.forEach(notes::add);
    if (!notes.isEmpty()) {
      row.set("r", notes);
    }
    if (own.read()) {
      row.put("read", true);
    }
    if (!own.comment().isEmpty()) {
      row.put("note", own.comment());
    }
    ArrayNode cells = row.putArray("c");
    ObjectNode near = JSON.objectNode();
    for (int p = 0; p < coverage.parts().size(); p++) {
      PartCoverage part = coverage.parts().get(p);
      List<DemandCoverage> said = program.parts().get(p).demands();
      for (int d = 0; d < part.demands().size(); d++) {
        String comment =
            own.comments().size() > cells.size() ? own.comments().get(cells.size()) : "";
        ObjectNode cell = cell(part.demands().get(d), said.get(d), reasons);
        if (!comment.isEmpty()) {
          cell.put("n", comment);
        }
        cells.add(cell);
      }
      coverage
          .nearest(part)
          .ifPresent(
              nearest ->
                  near.putArray(part.part().label())
                      .add(Words.oneLine(nearest.sentence().span().of(coverage.text())))
                      .add(nearest.why()));
    }
    if (!near.isEmpty()) {
      row.set("near", near);
    }
    return row;
  }

  /**
   * Returns a result with its reasons in words, for a page that shows one result.
   *
   * @param reasons is told each reason, and numbers them
   */
  public static ObjectNode result(Coverage coverage, ToIntFunction<String> reasons) {
    return row(
        coverage,
        coverage,
        Corrections.Own.NOTHING,
        ResponseView.remarks(coverage, Optional.empty()),
        reasons);
  }

  private static ObjectNode cell(
      DemandCoverage demand, DemandCoverage program, ToIntFunction<String> reasons) {
    ObjectNode cell = JSON.objectNode();
    cell.put("v", demand.verdict().word());
    cell.put("p", program.verdict().word());
    cell.put("w", reasons.applyAsInt(String.join("; ", program.why())));
    if (program.demand().kind() != everypart.lexicon.DemandKind.REPRESENT) {
      cell.put("s", Math.round(program.confidence() * 100));
    }
    if (program.look()) {
      cell.put("l", 1);
    }
    if (program.found() > 0) {
      cell.put("f", program.found());
    }
    if (!program.evidence().isEmpty()) {
      ArrayNode evidence = cell.putArray("e");
      for (Span span : program.evidence()) {
        evidence.addArray().add(span.start()).add(span.end());
      }
    }
    if (!program.points().isEmpty()) {
      ArrayNode points = cell.putArray("pt");
      program
          .points()
          .forEach(
              point -> points.addArray().add(point.point().name()).add(point.at().isPresent()));
    }
    return cell;
  }

  /** Returns JSON that can stand within a page: no sign in it ends the element it stands in. */
  static String inPage(String json) {
    return json.replace("<", "\\u003c");
  }
}

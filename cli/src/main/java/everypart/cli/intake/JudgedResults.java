package everypart.cli.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.agreement.Stratum;
import everypart.lexicon.DemandKind;
import java.io.BufferedReader;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Consumer;

/** Reads the program's verdicts in {@code results.jsonl}, to set them beside people's codes. */
public final class JudgedResults {
  private static final JsonMapper MAPPER = new JsonMapper();

  private final Sources sources;
  private final Consumer<InputProblem> problems;

  /**
   * Makes a reader.
   *
   * @param problems is told of each line that cannot be used
   */
  public JudgedResults(Sources sources, Consumer<InputProblem> problems) {
    this.sources = sources;
    this.problems = problems;
  }

  /**
   * The program's verdicts.
   *
   * @param judged by the name under which they were coded
   * @param sizes how many demands of all results are in each stratum
   * @param leftOut the coded demands of responses that the study leaves out of its figures
   */
  public record Verdicts(
      Map<Codes.Item, Codes.Judged> judged, Map<Stratum, Long> sizes, Set<Codes.Item> leftOut) {}

  /** Takes the verdicts of one response. */
  public interface ResultSink {
    /**
     * Takes them.
     *
     * @param promptId names the prompt
     * @param verdicts by demand, in reading order
     */
    void accept(String promptId, Map<Codes.Item, Codes.Judged> verdicts);
  }

  /**
   * Reads the program's verdicts on coded demands, and how many demands of all results are in each
   * stratum.
   *
   * @param name a file as {@code study} and {@code screen} write it
   * @throws InputException when the file cannot be read
   */
  public Verdicts results(String name, Codes.Coded coded) throws InputException {
    Map<Codes.Item, Codes.Judged> results = new LinkedHashMap<>();
    Map<Stratum, Long> sizes = new TreeMap<>();
    Set<String> twofold = new TreeSet<>();
    Set<Codes.Item> leftOut = new HashSet<>();
    forEachResult(
        name,
        item -> coded.name(item).ifPresent(leftOut::add),
        (promptId, verdicts) ->
            verdicts.forEach(
                (item, judged) -> {
                  if (judged.verdict() != Verdict.UNCHECKED) {
                    sizes.merge(
                        Stratum.of(judged.kind(), judged.verdict(), judged.look()), 1L, Long::sum);
                  }
                  Optional<Codes.Item> own = coded.name(item);
                  if (own.isPresent()) {
                    Codes.Judged before = results.putIfAbsent(own.get(), judged);
                    if (before != null
                        && own.get().promptId().isEmpty()
                        && !before.item().promptId().equals(promptId)) {
                      twofold.add(item.responseId());
                    }
                  }
                }));
    for (String response : twofold) {
      problems.accept(
          InputProblem.fault(
              Sources.place(name),
              Sayings.of("codes.responseAnswersSeveral", response),
              Sayings.of("codes.addColumnPrompt")));
      results.keySet().removeIf(item -> item.responseId().equals(response));
    }
    leftOut.removeAll(results.keySet());
    if (!leftOut.isEmpty()) {
      problems.accept(
          InputProblem.note(
              Sources.place(name),
              Sayings.of(
                  leftOut.size() == 1 ? "codes.studyLeavesOut.one" : "codes.studyLeavesOut",
                  leftOut.size()),
              Sayings.of("codes.countThemRun")));
    }
    return new Verdicts(results, sizes, leftOut);
  }

  /**
   * Reads the program's verdicts response by response, but for those left out of the study's
   * figures.
   *
   * @param name a file as {@code study} and {@code screen} write it
   * @throws InputException when the file cannot be read
   */
  public void forEachResult(String name, ResultSink sink) throws InputException {
    forEachResult(name, item -> {}, sink);
  }

  private void forEachResult(String name, Consumer<Codes.Item> leftOut, ResultSink sink)
      throws InputException {
    Place place = Sources.place(name);
    try (BufferedReader lines = new BufferedReader(sources.reader(name))) {
      long number = 0;
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        number++;
        if (line.isBlank()) {
          continue;
        }
        try {
          JsonNode result = MAPPER.readTree(line);
          Map<Codes.Item, Codes.Judged> verdicts = verdicts(result);
          if (result.has("leftOut")) {
            verdicts.keySet().forEach(leftOut);
          } else {
            sink.accept(result.path("promptId").asText(), verdicts);
          }
        } catch (JsonProcessingException | IllegalArgumentException e) {
          problems.accept(
              InputProblem.fault(
                  place.atLine(number),
                  Sayings.of("codes.lineNoResult"),
                  Sayings.of("codes.giveResultsJsonl")));
        }
      }
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(name, e));
    }
  }

  private static Map<Codes.Item, Codes.Judged> verdicts(JsonNode result) {
    if (!result.path("responseId").isTextual() || !result.path("parts").isArray()) {
      throw new IllegalArgumentException("no result");
    }
    Map<Codes.Item, Codes.Judged> found = new LinkedHashMap<>();
    Map<String, String> groups = new LinkedHashMap<>();
    result
        .path("groups")
        .properties()
        .forEach(group -> groups.put(group.getKey(), group.getValue().asText()));
    for (JsonNode part : result.path("parts")) {
      int demand = 1;
      for (JsonNode one : part.path("demands")) {
        // Where a teacher's verdict stands in its place, the program's own is kept beside it.
        JsonNode own = one.has("program") ? one.path("program") : one;
        List<String> quotes = new ArrayList<>();
        one.path("evidence").forEach(quote -> quotes.add(quote.path("quote").asText()));
        List<String> why = new ArrayList<>();
        one.path("why").forEach(reason -> why.add(reason.asText()));
        Codes.Item item =
            new Codes.Item(
                result.path("promptId").asText(),
                result.path("responseId").asText(),
                part.path("label").asText(),
                demand++);
        found.put(
            item,
            new Codes.Judged(
                item,
                DemandKind.of(one.path("kind").asText()),
                Verdict.valueOf(own.path("verdict").asText().toUpperCase(Locale.ROOT)),
                own.path("confidence").asDouble(),
                own.path("look").asBoolean(),
                quotes,
                why,
                groups));
      }
    }
    return found;
  }
}

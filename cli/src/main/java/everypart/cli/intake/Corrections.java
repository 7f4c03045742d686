package everypart.cli.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What a teacher decided while reading the report of a class set: verdicts of their own, and which
 * responses were read whole.
 */
public final class Corrections {
  /** Says what kind of file it is, in its field {@code format}. */
  public static final String FORMAT = "everypart-corrections";

  /** No corrections. */
  public static final Corrections NONE =
      new Corrections(Map.of(), Set.of(), Map.of(), Map.of(), Map.of());

  private static final JsonMapper MAPPER = new JsonMapper();

  private final Map<Key, Verdict> verdicts;
  private final Set<Reply> read;
  private final Map<Codes.Item, Boolean> codes;
  private final Map<Key, String> comments;
  private final Map<Reply, String> onReplies;

  /**
   * What the teacher wrote beside one result.
   *
   * @param read whether the whole response was read
   * @param comment for the student; empty for none
   * @param comments a comment for each demand in reading order, empty for none; or no comments
   */
  public record Own(boolean read, String comment, List<String> comments) {
    /** Nothing. */
    public static final Own NOTHING = new Own(false, "", List.of());

    /** Copies the comments. */
    public Own {
      comments = List.copyOf(comments);
    }
  }

  /** A response to a prompt. */
  private record Reply(String promptId, String responseId) {}

  private record Key(Reply reply, String part, int demand) {}

  private Corrections(
      Map<Key, Verdict> verdicts,
      Set<Reply> read,
      Map<Codes.Item, Boolean> codes,
      Map<Key, String> comments,
      Map<Reply, String> onReplies) {
    this.comments = Map.copyOf(comments);
    this.onReplies = Map.copyOf(onReplies);
    this.verdicts = Map.copyOf(verdicts);
    this.read = Set.copyOf(read);
    this.codes = Collections.unmodifiableMap(new LinkedHashMap<>(codes));
  }

  /**
   * Reads a file that the report saved.
   *
   * @throws InputException when it cannot be read or is none
   */
  public static Corrections read(Sources sources, String name) throws InputException {
    return read(sources, name, Optional.empty());
  }

  /**
   * Reads a file that the report saved.
   *
   * @param prompts the prompts it is to be applied to
   * @throws InputException when it cannot be read, is none, or is for other prompts
   */
  public static Corrections read(Sources sources, String name, Collection<Prompt> prompts)
      throws InputException {
    return read(sources, name, Optional.of(prompts));
  }

  /**
   * Reads what the page of a report holds.
   *
   * @param prompts the prompts it is to be applied to
   * @throws InputException when it is no corrections, or for other prompts
   */
  public static Corrections of(String json, Collection<Prompt> prompts) throws InputException {
    return read(json, Place.file("corrections"), Optional.of(prompts));
  }

  private static Corrections read(
      Sources sources, String name, Optional<Collection<Prompt>> prompts) throws InputException {
    try {
      return read(sources.text(name), Sources.place(name), prompts);
    } catch (OutOfMemoryError e) {
      throw new InputException(Sources.withoutMemory(name));
    }
  }

  private static Corrections read(String json, Place place, Optional<Collection<Prompt>> prompts)
      throws InputException {
    try {
      JsonNode file = MAPPER.readTree(json);
      if (!file.path("format").asText().equals(FORMAT) || !file.path("responses").isArray()) {
        throw new IllegalArgumentException("no corrections");
      }
      if (prompts.isPresent()) {
        Optional<String> why = unfit(file, prompts.get());
        if (why.isPresent()) {
          throw new InputException(
              InputProblem.fault(place, why.get(), Sayings.of("corrections.giveCorrectionsSaved")));
        }
      }
      return of(file.path("responses"));
    } catch (JsonProcessingException | IllegalArgumentException e) {
      throw new InputException(
          InputProblem.fault(
              place,
              Sayings.of("corrections.fileHoldsNo"),
              Sayings.of("corrections.giveFileReport")));
    }
  }

  /** Returns why corrections are not for these prompts; nothing when they are. */
  private static Optional<String> unfit(JsonNode file, Collection<Prompt> prompts) {
    Map<String, Prompt> known = new HashMap<>();
    prompts.forEach(prompt -> known.put(prompt.id(), prompt));
    for (JsonNode one : file.path("prompts")) {
      Prompt prompt = known.get(one.path("id").asText());
      if (prompt == null || !wording(prompt).equals(one.path("wording").asText())) {
        return Optional.of(other(one.path("id").asText()));
      }
    }
    for (JsonNode one : file.path("responses")) {
      Prompt prompt = known.get(one.path("promptId").asText());
      if (prompt == null) {
        return Optional.of(other(one.path("promptId").asText()));
      }
      for (JsonNode demand : one.path("demands")) {
        String part = demand.path("part").asText();
        int number = demand.path("demand").asInt();
        String kind = demand.path("kind").asText("");
        boolean there =
            prompt.parts().stream()
                .filter(mine -> mine.label().equals(part))
                .filter(mine -> number >= 1 && number <= mine.demands().size())
                .map(mine -> mine.demands().get(number - 1).kind().word())
                .anyMatch(word -> kind.isEmpty() || kind.equals(word));
        if (!there) {
          return Optional.of(
              Sayings.of("corrections.theseCorrectionsSpeak", part, number, kind, prompt.id()));
        }
      }
    }
    return Optional.empty();
  }

  private static String other(String id) {
    return Sayings.of("corrections.theseCorrectionsAnother", id);
  }

  /** Returns what tells a prompt from others: a checksum of its parts' labels and wordings. */
  public static String wording(Prompt prompt) {
    StringBuilder words = new StringBuilder();
    for (Part part : prompt.parts()) {
      words.append(part.label()).append('\n');
      words.append(part.text().strip().replaceAll("\\s+", " ")).append('\n');
    }
    return Checksum.ofText(words.toString()).substring(0, 16);
  }

  private static Corrections of(JsonNode responses) {
    Map<Key, String> comments = new HashMap<>();
    Map<Reply, String> onReplies = new HashMap<>();
    Map<Key, Verdict> verdicts = new HashMap<>();
    Set<Reply> read = new HashSet<>();
    Map<Codes.Item, Boolean> codes = new LinkedHashMap<>();
    for (JsonNode one : responses) {
      Reply reply = new Reply(one.path("promptId").asText(), one.path("responseId").asText());
      boolean whole = one.path("read").asBoolean();
      if (whole) {
        read.add(reply);
      }
      if (!one.path("comment").asText("").isBlank()) {
        onReplies.put(reply, one.path("comment").asText().strip());
      }
      for (JsonNode demand : one.path("demands")) {
        Verdict verdict = Verdict.valueOf(demand.path("verdict").asText().toUpperCase(Locale.ROOT));
        String part = demand.path("part").asText();
        int number = demand.path("demand").asInt();
        if (demand.path("overruled").asBoolean()) {
          verdicts.put(new Key(reply, part, number), verdict);
        }
        if (!demand.path("comment").asText("").isBlank()) {
          comments.put(new Key(reply, part, number), demand.path("comment").asText().strip());
        }
        if (whole && verdict != Verdict.UNCHECKED) {
          codes.put(
              new Codes.Item(reply.promptId(), reply.responseId(), part, number),
              verdict != Verdict.MISSING);
        }
      }
    }
    return new Corrections(verdicts, read, codes, comments, onReplies);
  }

  /**
   * Returns the teacher's decisions as codes: those on the responses that were read whole, since
   * the ones that were overruled in passing say nothing about how often the program is right.
   */
  Map<Codes.Item, Boolean> codes() {
    return codes;
  }

  /** Returns what the teacher wrote beside a result. */
  public Own of(Coverage coverage) {
    Reply reply = reply(coverage);
    List<String> onDemands = new ArrayList<>();
    for (PartCoverage part : coverage.parts()) {
      for (int number = 1; number <= part.demands().size(); number++) {
        onDemands.add(comments.getOrDefault(new Key(reply, part.part().label(), number), ""));
      }
    }
    return new Own(read.contains(reply), onReplies.getOrDefault(reply, ""), onDemands);
  }

  /** Returns a result with the teacher's verdicts in place of the program's. */
  public Coverage apply(Coverage coverage) {
    if (verdicts.isEmpty()) {
      return coverage;
    }
    List<PartCoverage> parts = new ArrayList<>();
    for (PartCoverage part : coverage.parts()) {
      List<DemandCoverage> demands = new ArrayList<>();
      for (DemandCoverage demand : part.demands()) {
        Optional<Verdict> own =
            Optional.ofNullable(
                verdicts.get(new Key(reply(coverage), part.part().label(), demands.size() + 1)));
        demands.add(own.map(verdict -> overruled(demand, verdict)).orElse(demand));
      }
      parts.add(
          new PartCoverage(
              part.part(),
              demands.equals(part.demands())
                  ? part.verdict()
                  : Verdict.over(demands.stream().map(DemandCoverage::verdict).toList()),
              demands));
    }
    if (parts.equals(coverage.parts())) {
      return coverage;
    }
    return new Coverage(
        coverage.responseId(),
        coverage.prompt(),
        coverage.text(),
        Verdict.over(
            parts.stream()
                .flatMap(part -> part.demands().stream())
                .map(DemandCoverage::verdict)
                .toList()),
        parts,
        coverage.assignment(),
        coverage.judge());
  }

  private static Reply reply(Coverage coverage) {
    return new Reply(coverage.prompt().id(), coverage.responseId());
  }

  private static DemandCoverage overruled(DemandCoverage demand, Verdict verdict) {
    if (demand.verdict() == verdict) {
      return demand;
    }
    List<String> why = new ArrayList<>();
    why.add(Sayings.of("corrections.decidedTeacherWhere", demand.verdict().word()));
    why.addAll(demand.why());
    return new DemandCoverage(
        demand.demand(),
        switch (verdict) {
          case ADDRESSED -> Math.max(demand.found(), demand.demand().count());
          case MISSING -> 0;
          case PARTLY, UNCHECKED -> demand.found();
        },
        verdict,
        1,
        false,
        demand.evidence(),
        why,
        demand.points());
  }
}

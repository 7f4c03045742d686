package everypart.cli.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.DemandCoverage;
import everypart.analyzer.coverage.PartCoverage;
import everypart.analyzer.coverage.Verdict;
import java.util.ArrayList;
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
  public static final Corrections NONE = new Corrections(Map.of(), Set.of(), Map.of());

  private static final JsonMapper MAPPER = new JsonMapper();

  private final Map<Key, Verdict> verdicts;
  private final Set<Reply> read;
  private final Map<Codes.Item, Boolean> codes;

  /** A response to a prompt. */
  private record Reply(String promptId, String responseId) {}

  private record Key(Reply reply, String part, int demand) {}

  private Corrections(Map<Key, Verdict> verdicts, Set<Reply> read, Map<Codes.Item, Boolean> codes) {
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
    try {
      JsonNode file = MAPPER.readTree(sources.text(name));
      if (!file.path("format").asText().equals(FORMAT) || !file.path("responses").isArray()) {
        throw new IllegalArgumentException("no corrections");
      }
      return of(file.path("responses"));
    } catch (JsonProcessingException | IllegalArgumentException e) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(name),
              "this file holds no corrections",
              "give the file that the report of screen saved"));
    }
  }

  private static Corrections of(JsonNode responses) {
    Map<Key, Verdict> verdicts = new HashMap<>();
    Set<Reply> read = new HashSet<>();
    Map<Codes.Item, Boolean> codes = new LinkedHashMap<>();
    for (JsonNode one : responses) {
      Reply reply = new Reply(one.path("promptId").asText(), one.path("responseId").asText());
      boolean whole = one.path("read").asBoolean();
      if (whole) {
        read.add(reply);
      }
      for (JsonNode demand : one.path("demands")) {
        Verdict verdict = Verdict.valueOf(demand.path("verdict").asText().toUpperCase(Locale.ROOT));
        String part = demand.path("part").asText();
        int number = demand.path("demand").asInt();
        if (demand.path("overruled").asBoolean()) {
          verdicts.put(new Key(reply, part, number), verdict);
        }
        if (whole && verdict != Verdict.UNCHECKED) {
          codes.put(
              new Codes.Item(reply.promptId(), reply.responseId(), part, number),
              verdict != Verdict.MISSING);
        }
      }
    }
    return new Corrections(verdicts, read, codes);
  }

  /**
   * Returns the teacher's decisions as codes: those on the responses that were read whole, since
   * the ones that were overruled in passing say nothing about how often the program is right.
   */
  Map<Codes.Item, Boolean> codes() {
    return codes;
  }

  /** Tells whether a response was read whole. */
  public boolean isRead(Coverage coverage) {
    return read.contains(reply(coverage));
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
        coverage.assignment());
  }

  private static Reply reply(Coverage coverage) {
    return new Reply(coverage.prompt().id(), coverage.responseId());
  }

  private static DemandCoverage overruled(DemandCoverage demand, Verdict verdict) {
    if (demand.verdict() == verdict) {
      return demand;
    }
    List<String> why = new ArrayList<>();
    why.add("decided by the teacher, where the program said " + demand.verdict().word());
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

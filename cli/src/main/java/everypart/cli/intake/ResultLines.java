package everypart.cli.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.DemandRow;
import everypart.analyzer.study.JudgedResponse;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** Reads lines of {@code results.jsonl} back, as a study counts them. */
public final class ResultLines {
  private static final JsonMapper MAPPER =
      JsonMapper.builder().enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS).build();

  private ResultLines() {}

  /** Returns a result, or nothing when the line is none. */
  public static Optional<JudgedResponse> read(String line) {
    try {
      return Optional.of(read(MAPPER.readTree(line)));
    } catch (JsonProcessingException | IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  private static JudgedResponse read(JsonNode result) {
    List<DemandRow> rows = new ArrayList<>();
    for (JsonNode part : result.path("parts")) {
      int number = 1;
      for (JsonNode demand : part.path("demands")) {
        rows.add(
            new DemandRow(
                part.path("label").asText(),
                number++,
                rows.size() + 1,
                DemandKind.of(demand.path("kind").asText()),
                demand.path("verb").asText(),
                verdict(demand),
                demand.path("confidence").asDouble(),
                demand.path("look").asBoolean()));
      }
    }
    Map<String, String> groups = new LinkedHashMap<>();
    result
        .path("groups")
        .properties()
        .forEach(group -> groups.put(group.getKey(), group.getValue().asText()));
    return new JudgedResponse(
        result.path("responseId").asText(),
        result.path("promptId").asText(),
        verdict(result),
        result.path("words").asInt(),
        result.path("meaning").asLong(),
        groups,
        rows);
  }

  private static Verdict verdict(JsonNode of) {
    return Verdict.valueOf(of.path("verdict").asText().toUpperCase(Locale.ROOT));
  }
}

package everypart.cli.intake;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Responses from a file with a JSON object on each line: {@code response_id}, {@code prompt_id}
 * (may be absent) and {@code text}; every other field of the first line is kept as a group.
 */
final class ResponsesJsonl extends Ahead<Arrival> implements ResponseRows {
  private static final JsonMapper MAPPER = new JsonMapper();
  private static final Set<String> OWN = Set.of("response_id", "prompt_id", "text");

  private final Sources sources;
  private final LongLines lines;
  private final Place file;
  private final List<String> groups = new ArrayList<>();
  private boolean begun;
  private long line;

  ResponsesJsonl(Sources sources, String name) throws InputException {
    this.file = Sources.place(name);
    this.sources = sources;
    this.lines = sources.lines(name);
    begin();
  }

  @Override
  public List<String> groups() {
    return List.copyOf(groups);
  }

  @Override
  protected @Nullable Arrival read() {
    try {
      String text = lines.next();
      line++;
      while (text != null && text.isBlank()) {
        text = lines.next();
        line++;
      }
      if (text != null && lines.cut(text)) {
        return sources.tooLong(file.atLine(line));
      }
      return text == null ? null : response(text, file.atLine(line));
    } catch (IOException e) {
      return InputProblem.fault(
          file.atLine(line + 1),
          Sayings.of("responsesJsonl.restFileCannot", String.valueOf(e.getMessage())),
          Sayings.of("responsesJsonl.makeFileAnew"));
    }
  }

  private Arrival response(String text, Place place) {
    JsonNode row;
    try {
      row = MAPPER.readTree(text);
    } catch (JsonProcessingException e) {
      row = MAPPER.missingNode();
    }
    if (!row.isObject() || !row.path("text").isTextual()) {
      return InputProblem.fault(
          place,
          Sayings.of("responsesJsonl.lineNoJson"),
          Sayings.of("responsesJsonl.writeResponseId"));
    }
    String id = row.path("response_id").asText("").strip();
    if (id.isEmpty()) {
      return InputProblem.fault(
          place,
          Sayings.of("responsesCsv.responseIdEmpty"),
          Sayings.of("responsesCsv.giveEachResponse"));
    }
    if (!begun) {
      begun = true;
      row.fieldNames()
          .forEachRemaining(
              field -> {
                if (!OWN.contains(field)) {
                  groups.add(field);
                }
              });
    }
    Map<String, String> values = new LinkedHashMap<>();
    for (String group : groups) {
      values.put(group, row.path(group).asText(""));
    }
    Optional<String> prompt =
        Optional.of(row.path("prompt_id").asText("").strip()).filter(value -> !value.isEmpty());
    return new Response(id, prompt, row.path("text").asText(), values, place);
  }

  @Override
  public void close() throws IOException {
    lines.close();
  }
}

package everypart.analyzer.coverage;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptYaml;
import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * Coded answers from a folder: {@code prompts/*.yaml}, {@code responses.csv}, and {@code codes.csv}
 * with the kinds and codes of a response's demands in reading order.
 */
public final class CodedAnswers {
  /**
   * A response with its codes.
   *
   * @param set the name of its folder
   * @param addressed for each demand in reading order, whether people found it addressed
   */
  public record Coded(String set, Prompt prompt, String text, List<Boolean> addressed) {
    /** Copies the codes. */
    public Coded {
      addressed = List.copyOf(addressed);
    }
  }

  private CodedAnswers() {}

  /** Reads a folder. */
  public static List<Coded> read(Path folder, PromptYaml yaml) throws IOException {
    Map<String, CSVRecord> responses = new HashMap<>();
    for (CSVRecord row : rows(folder.resolve("responses.csv"))) {
      responses.put(row.get("response_id"), row);
    }
    Map<String, Prompt> prompts = new HashMap<>();
    List<Coded> coded = new ArrayList<>();
    for (CSVRecord row : rows(folder.resolve("codes.csv"))) {
      CSVRecord response =
          Objects.requireNonNull(responses.get(row.get("response_id")), () -> "no response " + row);
      String id = response.get("prompt_id");
      if (!prompts.containsKey(id)) {
        Path file = folder.resolve("prompts").resolve(id + ".yaml");
        prompts.put(id, yaml.read(id, Files.readString(file)));
      }
      Prompt prompt = Objects.requireNonNull(prompts.get(id));
      List<String> kinds =
          prompt.parts().stream()
              .flatMap(part -> part.demands().stream())
              .map(demand -> demand.kind().word())
              .toList();
      List<Boolean> codes = Arrays.stream(row.get("codes").split(",")).map("1"::equals).toList();
      if (kinds.contains(DemandKind.REPRESENT.word()) || kinds.size() != codes.size()) {
        throw new IllegalStateException(row + " does not fit the demands " + kinds);
      }
      coded.add(
          new Coded(
              Objects.requireNonNull(folder.getFileName()).toString(),
              prompt,
              response.get("text"),
              codes));
    }
    return coded;
  }

  private static List<CSVRecord> rows(Path file) throws IOException {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (Reader in = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
      return format.parse(in).getRecords();
    }
  }
}

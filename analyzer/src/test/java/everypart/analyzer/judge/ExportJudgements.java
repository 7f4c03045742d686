package everypart.analyzer.judge;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import everypart.analyzer.assign.Assignment;
import everypart.analyzer.assign.PartAssigner;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.prompt.PromptYaml;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.jspecify.annotations.Nullable;

/**
 * Writes for each coded demand what the judge sees: its wording, the text of its part and the rest,
 * its features, and its code. {@code analyzer/training} learns from these lines.
 *
 * <p>Arguments: the file to write, then folders of coded answers.
 */
public final class ExportJudgements {
  private static final JsonMapper JSON = new JsonMapper();

  private ExportJudgements() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException {
    try (BufferedWriter out = Files.newBufferedWriter(Path.of(args[0]))) {
      for (int i = 1; i < args.length; i++) {
        folder(Path.of(args[i]), out);
        System.err.println(args[i]);
      }
    }
  }

  private static void folder(Path folder, BufferedWriter out) throws IOException {
    Lexicon lexicon = Lexicon.bundled();
    TextReader texts = new TextReader(lexicon.forms()::stem);
    PromptYaml yaml = new PromptYaml(new PromptReader(lexicon));
    Answers answers = new Answers(lexicon, texts);
    PartAssigner assigner =
        new PartAssigner(
            lexicon,
            texts,
            Optional.empty(),
            Optional.of(new DemandBearing(answers, Optional.empty())));
    Map<String, CSVRecord> responses = new HashMap<>();
    rows(folder.resolve("responses.csv"))
        .forEach(row -> responses.put(row.get("response_id"), row));
    Map<String, Prompt> prompts = new HashMap<>();
    Map<String, JsonNode> marks = marks(folder.resolve("evidence.jsonl"));
    Path doubts = folder.resolve("doubt.txt");
    Set<String> doubted =
        Files.exists(doubts) ? new HashSet<>(Files.readAllLines(doubts)) : Set.of();
    for (CSVRecord row : rows(folder.resolve("codes.csv"))) {
      String id = row.get("response_id");
      CSVRecord response = Objects.requireNonNull(responses.get(id));
      Prompt prompt =
          prompts.computeIfAbsent(
              response.get("prompt_id"),
              key -> {
                try {
                  return yaml.read(
                      key, Files.readString(folder.resolve("prompts").resolve(key + ".yaml")));
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
              });
      String raw = response.get("text");
      Text text = texts.read(raw);
      Assignment assignment = assigner.assign(prompt, text);
      String[] codes = row.get("codes").split(",");
      String[] lacks =
          row.isMapped("lacks") ? row.get("lacks").split(",", -1) : new String[codes.length];
      List<int[]> segments = segments(raw, marks.get(id));
      ResponseView view = answers.read(prompt, text, assignment);
      int number = 0;
      for (Part part : prompt.parts()) {
        for (int place = 0; place < part.demands().size(); place++) {
          Demand demand = part.demands().get(place);
          if (demand.kind() == DemandKind.REPRESENT) {
            number++;
            continue;
          }
          ObjectNode line = JSON.createObjectNode();
          line.put("set", Objects.requireNonNull(folder.getFileName()).toString());
          line.put("q", prompt.id()).put("id", id).put("part", part.label()).put("place", place);
          line.put("kind", demand.kind().word()).put("label", codes[number].equals("1") ? 1 : 0);
          line.put("lack", lacks[number] == null ? "" : lacks[number]);
          line.put("doubt", doubted.contains(id)).put("multi", prompt.parts().size() > 1);
          line.put("a", DemandText.of(prompt, part, place));
          Set<Integer> own = new HashSet<>(view.pieces(part));
          ArrayNode pieces = line.putArray("pieces");
          for (int p = 0; p < view.size(); p++) {
            ArrayNode piece = pieces.addArray();
            piece.add(own.contains(p) ? 1 : 0);
            cut(raw, view.from(p), view.to(p), segments, number + 1, marks.containsKey(id), piece);
          }
          line.put(
              "gate",
              Gates.closed(view.words(part), demand.kind(), view.answer(part, true), view.whole())
                  .map(Enum::name)
                  .orElse(""));
          ObjectNode features = line.putObject("f");
          Values values = view.features(part, place);
          for (int i = 0; i < values.size(); i++) {
            if (values.number(i) != 0) {
              features.put(values.name(i), Math.round(values.number(i) * 1e4) / 1e4);
            }
          }
          out.write(JSON.writeValueAsString(line));
          out.write('\n');
          number++;
        }
      }
    }
  }

  /** Adds the text of a piece, cut where evidence begins and ends: text, 1 or 0 or -1, ... */
  private static void cut(
      String raw,
      int from,
      int to,
      List<int[]> segments,
      int demand,
      boolean known,
      ArrayNode piece) {
    if (!known) {
      piece.add(raw.substring(from, to)).add(-1);
      return;
    }
    int at = from;
    while (at < to) {
      boolean in = isEvidence(segments, at, demand);
      int end = at + 1;
      while (end < to && isEvidence(segments, end, demand) == in) {
        end++;
      }
      piece.add(raw.substring(at, end)).add(in ? 1 : 0);
      at = end;
    }
  }

  private static boolean isEvidence(List<int[]> segments, int at, int demand) {
    for (int[] segment : segments) {
      if (at >= segment[0] && at < segment[1]) {
        for (int i = 2; i < segment.length; i++) {
          if (segment[i] == demand) {
            return true;
          }
        }
      }
    }
    return false;
  }

  private static List<int[]> segments(String raw, @Nullable JsonNode marked) {
    List<int[]> segments = new ArrayList<>();
    int at = 0;
    if (marked == null) {
      return segments;
    }
    for (JsonNode sentence : marked.path("sentences")) {
      String words = sentence.path("t").asText().strip();
      int start = raw.indexOf(words, at);
      if (words.isEmpty() || start < 0) {
        continue;
      }
      int[] segment = new int[2 + sentence.path("demands").size()];
      segment[0] = start;
      segment[1] = start + words.length();
      for (int i = 2; i < segment.length; i++) {
        segment[i] = sentence.path("demands").get(i - 2).asInt();
      }
      segments.add(segment);
      at = segment[1];
    }
    return segments;
  }

  private static Map<String, JsonNode> marks(Path file) throws IOException {
    Map<String, JsonNode> marks = new HashMap<>();
    if (Files.exists(file)) {
      for (String line : Files.readAllLines(file)) {
        JsonNode node = JSON.readTree(line);
        marks.put(node.path("id").asText(), node);
      }
    }
    return marks;
  }

  private static List<CSVRecord> rows(Path file) throws IOException {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (java.io.Reader in = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
      return format.parse(in).getRecords();
    }
  }
}

package everypart.analyzer.prompt;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.zip.CRC32;

/**
 * A prompt with the demands that a person coded.
 *
 * @param id names it
 * @param demands its demands in reading order, as in "describe*2"
 * @param text its wording
 */
record CodedWording(String id, List<Asked> demands, String text) {
  /**
   * A demand, or a run of them.
   *
   * @param kind the word for its kind
   * @param count how many
   */
  record Asked(String kind, int count) {}

  /** Which half of a file a prompt is in, by a hash of its id. */
  enum Half {
    /** Rules may be chosen by it. */
    READ,
    /** Nobody looks at it while rules are made. */
    KEPT
  }

  Half half() {
    CRC32 hash = new CRC32();
    hash.update(id.getBytes(StandardCharsets.UTF_8));
    return hash.getValue() % 2 == 0 ? Half.READ : Half.KEPT;
  }

  /** Reads the prompts of a file beside this class. */
  static List<CodedWording> in(String resource) {
    String file;
    try (InputStream in = CodedWording.class.getResourceAsStream(resource)) {
      file = new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    List<CodedWording> coded = new ArrayList<>();
    for (String entry : file.split("(?m)^=== ")) {
      if (entry.isBlank() || entry.startsWith("#")) {
        continue;
      }
      String[] halves = entry.split("(?m)^text:[ \\t]*\\n?", 2);
      Optional<String> demands =
          halves[0].lines().filter(line -> line.startsWith("demands: ")).findFirst();
      if (halves.length < 2 || demands.isEmpty()) {
        throw new IllegalArgumentException(resource + ": no demands or no text in " + halves[0]);
      }
      coded.add(
          new CodedWording(
              halves[0].lines().findFirst().orElseThrow().strip(),
              Arrays.stream(demands.get().substring(9).split(";"))
                  .map(CodedWording::asked)
                  .toList(),
              halves[1].strip()));
    }
    return coded;
  }

  static Asked asked(String code) {
    String[] parts = code.strip().split("\\*");
    return new Asked(parts[0].strip(), parts.length > 1 ? Integer.parseInt(parts[1].strip()) : 1);
  }

  /** Returns what was read, in the same form. */
  static List<Asked> read(Prompt prompt) {
    return prompt.parts().stream()
        .flatMap(part -> part.demands().stream())
        .map(demand -> new Asked(demand.kind().word(), demand.count()))
        .toList();
  }
}

package everypart.analyzer.prompt;

import everypart.analyzer.prompt.CodedWording.Asked;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Compares what was read in coded prompts with the codes. Neighbours of one kind are taken
 * together, since "identify, identify" and "two to identify" say the same. Sums are kept, ratios
 * derived last.
 */
final class WordingScore {
  private static final int MOST_CHANGES = 12;

  private int read;
  private int sameKinds;
  private int sameAll;
  private int hits;
  private int extra;
  private int missed;
  private int counts;
  private int rightCounts;
  private int overcounted;
  private final Map<String, Integer> changes = new TreeMap<>();
  private final List<String> differences = new ArrayList<>();

  /** Scores a half of a file of whole prompts. */
  static WordingScore of(String resource, CodedWording.Half half) {
    PromptReader reader = new PromptReader(Lexicon.bundled());
    WordingScore score = new WordingScore();
    CodedWording.in(resource).stream()
        .filter(coded -> coded.half() == half)
        .forEach(coded -> score.add(coded, reader.read(coded.id(), coded.text())));
    return score;
  }

  /** Scores a half of the parts of coded answers, each read by itself as in a YAML prompt. */
  static WordingScore of(
      List<CodedParts.CodedPart> parts, CodedWording.Half half, PromptReader reader) {
    WordingScore score = new WordingScore();
    parts.stream()
        .filter(part -> part.wording().half() == half)
        .forEach(
            part -> score.add(part.wording(), reader.part(part.wording().text(), part.stimulus())));
    return score;
  }

  void add(CodedWording coded, Prompt prompt) {
    List<Asked> want = runs(coded.demands());
    List<Asked> have = runs(CodedWording.read(prompt));
    List<String> wanted = want.stream().map(Asked::kind).toList();
    List<String> found = have.stream().map(Asked::kind).toList();
    read++;
    sameKinds += wanted.equals(found) ? 1 : 0;
    sameAll += want.equals(have) ? 1 : 0;
    List<String> rest = new ArrayList<>(found);
    List<String> lost = wanted.stream().filter(kind -> !rest.remove(kind)).toList();
    hits += wanted.size() - lost.size();
    extra += rest.size();
    missed += lost.size();
    if (!wanted.equals(found)) {
      changes.merge(
          "coded "
              + (lost.isEmpty() ? "no more" : String.join(", ", lost))
              + ", read "
              + (rest.isEmpty() ? "no more" : String.join(", ", rest)),
          1,
          Integer::sum);
    }
    for (Asked asked : want) {
      if (asked.count() > 1) {
        counts++;
        rightCounts += have.contains(asked) ? 1 : 0;
      }
    }
    for (Asked asked : have) {
      overcounted += asked.count() > 1 && !want.contains(asked) ? 1 : 0;
    }
    if (!want.equals(have)) {
      differences.add(
          coded.id() + ": coded " + words(want) + ", read " + words(have) + " | " + coded.text());
    }
  }

  private static String words(List<Asked> asked) {
    List<String> words = new ArrayList<>();
    asked.forEach(one -> words.add(one.kind() + (one.count() > 1 ? "*" + one.count() : "")));
    return String.join("; ", words);
  }

  private static List<Asked> runs(List<Asked> demands) {
    List<Asked> runs = new ArrayList<>();
    for (Asked demand : demands) {
      int last = runs.size() - 1;
      if (last >= 0 && runs.get(last).kind().equals(demand.kind())) {
        runs.set(last, new Asked(demand.kind(), runs.get(last).count() + demand.count()));
      } else {
        runs.add(demand);
      }
    }
    return runs;
  }

  /** The share of prompts in which the kinds come in the coded order. */
  double sameKinds() {
    return (double) sameKinds / read;
  }

  /** The share of prompts in which kinds and counts are those that were coded. */
  double sameAll() {
    return (double) sameAll / read;
  }

  /** The harmonic mean of precision and recall of kinds. */
  double kinds() {
    return 2.0 * hits / (2.0 * hits + extra + missed);
  }

  /** The share of coded counts above one that were read. */
  double counts() {
    return counts == 0 ? 1 : (double) rightCounts / counts;
  }

  @Override
  public String toString() {
    return String.format(
        Locale.ROOT,
        "%d read: same kinds %.3f, with counts %.3f, F1 of kinds %.3f (%d too many, %d missed),"
            + " counts %d of %d, %d not coded",
        read,
        sameKinds(),
        sameAll(),
        kinds(),
        extra,
        missed,
        rightCounts,
        counts,
        overcounted);
  }

  /**
   * Prints the figures of both halves: of the files beside this class, or of those given.
   *
   * @param args files of coded answers, as {@code analyzer/training} has them; {@code --show} also
   *     lists what differs in the half that may be read
   * @throws IOException when a file cannot be read
   */
  public static void main(String[] args) throws IOException {
    PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    boolean show = List.of(args).contains("--show");
    List<CodedParts.CodedPart> parts = new ArrayList<>();
    for (String arg : args) {
      if (!arg.equals("--show")) {
        parts.addAll(CodedParts.in(Path.of(arg)));
      }
    }
    PromptReader reader = new PromptReader(Lexicon.bundled());
    for (CodedWording.Half half : CodedWording.Half.values()) {
      String name = half.name().toLowerCase(Locale.ROOT);
      if (!parts.isEmpty()) {
        of(parts, half, reader)
            .print(out, "parts, " + name, show && half == CodedWording.Half.READ);
        continue;
      }
      for (String file : List.of("unseen-prompts.txt", "unseen-counts.txt")) {
        of(file, half).print(out, file + ", " + name, show && half == CodedWording.Half.READ);
      }
    }
  }

  private void print(PrintWriter out, String name, boolean show) {
    out.println(name + ": " + this);
    changes.entrySet().stream()
        .sorted(Map.Entry.<String, Integer>comparingByValue().reversed())
        .limit(MOST_CHANGES)
        .forEach(change -> out.println("  " + change.getValue() + " " + change.getKey()));
    if (show) {
      differences.forEach(out::println);
    }
  }
}

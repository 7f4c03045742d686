package everypart.analyzer.prompt;

import everypart.analyzer.prompt.CodedWording.Asked;
import everypart.lexicon.Lexicon;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Compares what was read in coded prompts with the codes. Neighbours of one kind are taken
 * together, since "identify, identify" and "two to identify" say the same. Sums are kept, ratios
 * derived last.
 */
final class WordingScore {
  private int prompts;
  private int sameKinds;
  private int sameAll;
  private int hits;
  private int extra;
  private int missed;
  private int counts;
  private int rightCounts;
  private int overcounted;
  private final List<String> differences = new ArrayList<>();

  /** Scores a half of a file. */
  static WordingScore of(String resource, CodedWording.Half half) {
    PromptReader reader = new PromptReader(Lexicon.bundled());
    WordingScore score = new WordingScore();
    CodedWording.in(resource).stream()
        .filter(coded -> coded.half() == half)
        .forEach(coded -> score.add(coded, reader.read(coded.id(), coded.text())));
    return score;
  }

  void add(CodedWording coded, Prompt prompt) {
    List<Asked> want = runs(coded.demands());
    List<Asked> have = runs(CodedWording.read(prompt));
    List<String> wanted = want.stream().map(Asked::kind).toList();
    List<String> found = have.stream().map(Asked::kind).toList();
    prompts++;
    sameKinds += wanted.equals(found) ? 1 : 0;
    sameAll += want.equals(have) ? 1 : 0;
    List<String> rest = new ArrayList<>(found);
    int shared = (int) wanted.stream().filter(rest::remove).count();
    hits += shared;
    extra += found.size() - shared;
    missed += wanted.size() - shared;
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
    return (double) sameKinds / prompts;
  }

  /** The share of prompts in which kinds and counts are those that were coded. */
  double sameAll() {
    return (double) sameAll / prompts;
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
        "%d prompts: same kinds %.3f, with counts %.3f, F1 of kinds %.3f (%d too many, %d missed), counts %d of %d, %d not coded",
        prompts,
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
   * Prints the figures of both files.
   *
   * @param args {@code --show} also lists what differs in the half that may be read
   */
  public static void main(String[] args) {
    PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    for (String file : List.of("unseen-prompts.txt", "unseen-counts.txt")) {
      for (CodedWording.Half half : CodedWording.Half.values()) {
        WordingScore score = of(file, half);
        out.println(file + ", " + half.name().toLowerCase(Locale.ROOT) + ": " + score);
        if (List.of(args).contains("--show") && half == CodedWording.Half.READ) {
          score.differences.forEach(out::println);
        }
      }
    }
  }
}

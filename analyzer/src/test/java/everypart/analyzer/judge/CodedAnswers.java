package everypart.analyzer.judge;

import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The coded answers of {@code analyzer/training/data}; its README has their format. */
final class CodedAnswers {
  private static final Path DATA = Path.of("training", "data");
  private static final Pattern PART = Pattern.compile("(\\S+) \\[([^\\]]*)\\]: *(.*)");
  private static final Pattern OPEN = Pattern.compile("(\\d+) [a-z-]+");

  /** A prompt file's text, and the answers to it. */
  record Coded(String id, String yaml, List<DemandKind> kinds, List<Response> responses) {}

  /**
   * The files of which one prompt in eight is set aside; {@code training/folds.py} names the same.
   */
  private static final Set<String> SET_ASIDE =
      Set.of(
          "book-1.txt",
          "book-2.txt",
          "exam-bio-5.txt",
          "exam-bio-6.txt",
          "exam-mix-4.txt",
          "exam-mix-5.txt",
          "kids-7.txt",
          "kids-8.txt");

  /** An answer, and whether each demand is addressed, in the order of the prompt. */
  record Response(String text, List<Boolean> addressed) {}

  private CodedAnswers() {}

  /**
   * Returns the prompts that no weight was learned from: one in eight of some files, fold 9 of
   * {@code folds.py}.
   */
  static List<Coded> leftOut() throws IOException {
    List<Coded> prompts = new ArrayList<>();
    try (Stream<Path> files = Files.list(DATA)) {
      for (Path file :
          files
              .filter(path -> SET_ASIDE.contains(path.getFileName().toString()))
              .sorted()
              .toList()) {
        for (String block : Files.readString(file).split("(?m)^=== ")) {
          String id = block.lines().findFirst().orElse("").strip();
          if (id.matches("[a-z0-9-]+") && isLeftOut(id)) {
            prompts.add(read(id, block));
          }
        }
      }
    }
    return prompts;
  }

  private static boolean isLeftOut(String id) {
    try {
      byte[] sum =
          MessageDigest.getInstance("MD5").digest((id + "v").getBytes(StandardCharsets.UTF_8));
      return new BigInteger(HexFormat.of().formatHex(sum), 16).mod(BigInteger.valueOf(8)).signum()
          == 0;
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Coded read(String id, String block) {
    String[] pieces = block.split("(?m)^--- ");
    StringBuilder parts = new StringBuilder();
    String stimulus = "";
    List<DemandKind> kinds = new ArrayList<>();
    for (String line : pieces[0].lines().skip(1).toList()) {
      Matcher part = PART.matcher(line);
      if (line.startsWith("stimulus:")) {
        stimulus = line.substring("stimulus:".length()).strip();
      } else if (part.matches()) {
        parts.append("  - label: ").append(part.group(1)).append("\n    text: ");
        parts.append(quoted(part.group(3))).append("\n    demands:\n");
        for (String demand : part.group(2).split(";")) {
          String[] kind = demand.strip().split("\\*");
          kinds.add(DemandKind.of(kind[0]));
          parts.append("      - kind: ").append(kind[0]).append('\n');
          parts.append("        count: ").append(kind.length > 1 ? kind[1] : "1").append('\n');
        }
      }
    }
    List<Response> responses = new ArrayList<>();
    for (String piece : List.of(pieces).subList(1, pieces.length)) {
      String[] head = piece.split("\n", 2);
      String[] fields = head[0].split("\\|", -1);
      Set<Integer> open = new TreeSet<>();
      if (fields.length > 1 && !fields[1].strip().startsWith("doubt")) {
        OPEN.matcher(fields[1]).results().forEach(hit -> open.add(Integer.valueOf(hit.group(1))));
      }
      List<Boolean> addressed = new ArrayList<>();
      for (int n = 1; n <= kinds.size(); n++) {
        addressed.add(!open.contains(n));
      }
      responses.add(new Response(head[1].replaceAll("\\{[0-9,]*}", "").strip(), addressed));
    }
    String start = stimulus.isEmpty() ? "" : "stimulus: " + quoted(stimulus) + "\n";
    return new Coded(id, "id: " + id + "\n" + start + "parts:\n" + parts, kinds, responses);
  }

  private static String quoted(String text) {
    return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }

  /** Returns Cohen's kappa (Cohen 1960) of two lists of yes and no, by the counts of each pair. */
  static double kappa(Map<Boolean, Map<Boolean, Integer>> counts) {
    double yesYes = count(counts, true, true);
    double yesNo = count(counts, true, false);
    double noYes = count(counts, false, true);
    double noNo = count(counts, false, false);
    double all = yesYes + yesNo + noYes + noNo;
    double agreed = (yesYes + noNo) / all;
    double chance =
        ((yesYes + yesNo) * (yesYes + noYes) + (noYes + noNo) * (yesNo + noNo)) / (all * all);
    return (agreed - chance) / (1 - chance);
  }

  private static double count(Map<Boolean, Map<Boolean, Integer>> counts, boolean a, boolean b) {
    return counts.getOrDefault(a, new LinkedHashMap<>()).getOrDefault(b, 0);
  }
}

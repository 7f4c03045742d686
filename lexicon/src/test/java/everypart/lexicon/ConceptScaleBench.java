package everypart.lexicon;

import java.io.IOException;
import java.io.PrintWriter;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Measures how long it takes to find concepts in sentences, and how much memory a lexicon takes,
 * with the program's concepts and with 10 and 100 times as many, made up.
 *
 * <p>A made-up concept has three names. Half of the concepts are words of the program's own names
 * put together anew, so that a text's words lead into them; the other half are coined of syllables.
 * They are written as files of a lexicon and loaded as a user's would be. The lexicons take turns,
 * and medians of processor time are compared, so that other work of the machine meets all alike.
 * The memory of the program's own lexicon holds what all lexicons share (word lists, the bundled
 * files as read); that of the others is what comes on top. It is no test, since the figures depend
 * on the machine.
 */
final class ConceptScaleBench {
  private static final int ROUNDS = 15;
  private static final int WARMING = 4;
  private static final int PASSES = 40;
  private static final int A_FILE = 20_000;
  private static final int NAMES = 3;
  private static final int UNKNOWN = 200;
  private static final String[] SYLLABLES =
      ("ba be bi bo da de di do fa fe fi fo ga go ka ke ki ko la le li lo ma me mi mo na ne ni no"
              + " pa pe pi po ra re ri ro sa se si so ta te ti to va ve vi vo za zo")
          .split(" ");

  private final Random random = new Random(17);
  private final Set<String> taken = new HashSet<>();
  private final List<String> words;
  private final List<String> made = new ArrayList<>();

  private ConceptScaleBench(Lexicon bundled) {
    Set<String> all = new HashSet<>();
    for (Concept concept : bundled.concepts()) {
      taken.addAll(concept.names());
      for (String name : concept.names()) {
        NameSplitter.split(name).stream()
            .filter(word -> word.chars().allMatch(Character::isLetter) && word.length() > 2)
            .forEach(all::add);
      }
    }
    this.words = all.stream().sorted().toList();
  }

  /**
   * Prints a row for each number of concepts. Other multiples than 1, 10 and 100 may be named, the
   * smallest first.
   */
  public static void main(String[] arguments) throws IOException {
    int[] multiples =
        arguments.length == 0
            ? new int[] {1, 10, 100}
            : Arrays.stream(arguments).mapToInt(Integer::parseInt).toArray();
    Path folder = Files.createTempDirectory("concepts");
    try {
      long before = held();
      Lexicon bundled = Lexicon.bundled();
      new ConceptScaleBench(bundled).run(folder, bundled, before, multiples);
    } finally {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.sorted((a, b) -> b.compareTo(a)).toList()) {
          Files.delete(file);
        }
      }
    }
  }

  private void run(Path folder, Lexicon bundled, long empty, int[] multiples) throws IOException {
    int own = bundled.concepts().size();
    long before = empty;
    List<Lexicon> lexicons = new ArrayList<>();
    List<Long> memory = new ArrayList<>();
    List<Path> folders = new ArrayList<>();
    for (int times : multiples) {
      if (times > 1) {
        folders.add(write(folder.resolve("x" + times), own * times - own - made.size() / NAMES));
      }
      lexicons.add(times > 1 ? Lexicon.load(folders) : bundled);
      long now = held();
      memory.add(now - before);
      before = now;
      System.out.printf(
          Locale.ROOT, "loaded %d concepts%n", lexicons.get(lexicons.size() - 1).concepts().size());
    }
    List<Words> plain =
        TestTable.rows("cause-effect.tsv", 4).stream().map(row -> new Words(row.get(1))).toList();
    List<Words> naming = new ArrayList<>();
    for (int i = 0; i < plain.size() && !made.isEmpty(); i++) {
      String name = made.get(i * 7 % Math.min(made.size(), 9 * own * NAMES));
      naming.add(new Words(plain.get(i).text(new TokenRange(0, plain.get(i).size())) + " " + name));
    }
    double[] ofPlain = medians(lexicons, plain);
    double[] ofNaming = medians(lexicons, naming.isEmpty() ? plain : naming);
    double[] ofUnknown = unknown(lexicons);
    System.out.println(
        "concepts | time, plain text | with made-up names | unknown words, first met | memory");
    for (int i = 0; i < multiples.length; i++) {
      System.out.printf(
          Locale.ROOT,
          "%d | %.2f | %.2f | %.2f | %.1f (%.0f MB)%n",
          own * multiples[i],
          ofPlain[i] / ofPlain[0],
          ofNaming[i] / ofNaming[0],
          ofUnknown[i] / ofUnknown[0],
          (double) memory.get(i) / memory.get(0),
          memory.get(i) / 1e6);
    }
  }

  private Path write(Path folder, int concepts) throws IOException {
    Files.createDirectory(folder);
    int written = 0;
    while (written < concepts) {
      int end = Math.min(concepts, written + A_FILE);
      Path file = folder.resolve("concepts-made-up-" + written + ".yaml");
      try (PrintWriter out =
          new PrintWriter(Files.newBufferedWriter(file, StandardCharsets.UTF_8))) {
        for (; written < end; written++) {
          boolean coined = random.nextBoolean();
          out.printf(
              Locale.ROOT,
              "- {concept: \"%s\", variants: [\"%s\", \"%s\"]}%n",
              name(coined),
              name(coined),
              name(coined));
        }
      }
    }
    return folder;
  }

  private String name(boolean coined) {
    while (true) {
      StringBuilder name = new StringBuilder();
      int length = coined ? 1 : 2 + random.nextInt(2);
      for (int word = 0; word < length; word++) {
        name.append(word > 0 ? " " : "");
        if (coined) {
          for (int i = 3 + random.nextInt(3); i > 0; i--) {
            name.append(SYLLABLES[random.nextInt(SYLLABLES.length)]);
          }
        } else {
          name.append(words.get(random.nextInt(words.size())));
        }
      }
      if (taken.add(name.toString())) {
        made.add(name.toString());
        return name.toString();
      }
    }
  }

  private static long held() {
    for (int i = 0; i < 3; i++) {
      System.gc();
    }
    return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
  }

  /** Returns the median processor time of a round of words that no lexicon has met before. */
  private double[] unknown(List<Lexicon> lexicons) {
    ThreadMXBean clock = ManagementFactory.getThreadMXBean();
    long[][] times = new long[lexicons.size()][ROUNDS];
    List<String> longer = words.stream().filter(word -> word.length() > 7).toList();
    for (int round = -WARMING; round < ROUNDS; round++) {
      List<String> misspelt = new ArrayList<>();
      while (misspelt.size() < UNKNOWN) {
        String word = longer.get(random.nextInt(longer.size()));
        int at = 1 + random.nextInt(word.length() - 1);
        String slip = SYLLABLES[random.nextInt(SYLLABLES.length)];
        misspelt.add(word.substring(0, at) + slip + word.substring(at + 1));
      }
      for (int i = 0; i < lexicons.size(); i++) {
        long start = clock.getCurrentThreadCpuTime();
        for (String word : misspelt) {
          lexicons.get(i).mend(word);
        }
        if (round >= 0) {
          times[i][round] = clock.getCurrentThreadCpuTime() - start;
        }
      }
    }
    return middle(times);
  }

  /** Returns the median processor time of a round over the sentences, for each lexicon. */
  private static double[] medians(List<Lexicon> lexicons, List<Words> sentences) {
    ThreadMXBean clock = ManagementFactory.getThreadMXBean();
    long[][] times = new long[lexicons.size()][ROUNDS];
    long found = 0;
    for (int round = -WARMING; round < ROUNDS; round++) {
      for (int i = 0; i < lexicons.size(); i++) {
        long start = clock.getCurrentThreadCpuTime();
        for (int pass = 0; pass < PASSES; pass++) {
          for (Words sentence : sentences) {
            found += lexicons.get(i).concepts(sentence).size();
          }
        }
        if (round >= 0) {
          times[i][round] = clock.getCurrentThreadCpuTime() - start;
        }
      }
    }
    if (found == 0) {
      throw new IllegalStateException("no concept was found, so nothing was measured");
    }
    return middle(times);
  }

  private static double[] middle(long[][] times) {
    return Arrays.stream(times)
        .mapToDouble(
            of -> {
              Arrays.sort(of);
              return of[ROUNDS / 2];
            })
        .toArray();
  }
}

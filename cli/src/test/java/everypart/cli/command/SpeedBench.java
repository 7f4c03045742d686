package everypart.cli.command;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Text;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.io.InputStream;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import opennlp.tools.postag.POSModel;
import opennlp.tools.postag.POSTaggerME;
import opennlp.tools.sentdetect.SentenceDetectorME;
import opennlp.tools.sentdetect.SentenceModel;
import opennlp.tools.tokenize.SimpleTokenizer;
import org.apache.lucene.analysis.TokenStream;
import org.apache.lucene.analysis.en.EnglishAnalyzer;

/**
 * How fast each stage and the whole analysis are without the reader, beside OpenNLP and Lucene in
 * the same run; what the analyzer holds; and how long the program takes to start, beside an empty
 * Java. A program, not a test: docs/performance.md says how to run it.
 *
 * <p>All take turns on the same texts, so that whatever else the machine does meets all alike. The
 * processor time of the thread is taken, in medians; only the ratios mean anything.
 */
final class SpeedBench {
  private static final Path DEMO = Path.of("demo-data");
  private static final List<Integer> LENGTHS = List.of(13, 120, 600);
  private static final int ROUNDS = 9;
  private static final int WARM_UP = 4;
  private static final int STARTS = 7;

  /** How many tokens a turn goes through, at least. */
  private static final int TURN = 20_000;

  private final long heapBefore = liveHeap();
  private final Lexicon lexicon = Lexicon.bundled();
  private final CoverageAnalyzer analyzer = new CoverageAnalyzer(lexicon);
  private final Prompt prompt;
  private final List<String> sentences = new ArrayList<>();
  private final POSTaggerME tagger;
  private final SentenceDetectorME detector;
  private final EnglishAnalyzer english = new EnglishAnalyzer();
  private long seen;

  private SpeedBench() throws IOException {
    prompt = analyzer.prompts().read("p", Files.readString(DEMO.resolve("prompts/lost-star.txt")));
    for (String text : DemoTexts.of(DEMO.resolve("class.csv")).values()) {
      for (Sentence sentence : analyzer.texts().read(text).sentences()) {
        sentences.add(sentence.span().of(text).replace('\n', ' '));
      }
      seen += analyzer.analyze(prompt, "r", text).parts().size();
    }
    System.out.printf(
        Locale.ROOT,
        "live heap of the analyzer with all lexicons: %.1f MB%n",
        (liveHeap() - heapBefore) / 1e6);
    try (InputStream tags = model("/opennlp-en-ud-ewt-pos-1.3-2.5.4.bin");
        InputStream ends = model("/opennlp-en-ud-ewt-sentence-1.3-2.5.4.bin")) {
      tagger = new POSTaggerME(new POSModel(tags));
      detector = new SentenceDetectorME(new SentenceModel(ends));
    }
  }

  private static InputStream model(String name) {
    return Objects.requireNonNull(SpeedBench.class.getResourceAsStream(name), name);
  }

  private static long liveHeap() {
    for (int i = 0; i < 3; i++) {
      System.gc();
    }
    return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
  }

  /** Prints the ratios. */
  public static void main(String[] arguments) throws Exception {
    if (!List.of(arguments).contains("--start")) {
      SpeedBench bench = new SpeedBench();
      for (int length : LENGTHS) {
        bench.run(length);
      }
      System.out.println("(" + bench.seen + " seen)");
    }
    starts();
  }

  /** Some responses of about one length, as they are and as tokens. */
  private record Texts(List<String> raw, List<Text> read, List<String[]> words, int tokens) {}

  private Texts texts(int length) {
    Random random = new Random(length);
    List<String> raw = new ArrayList<>();
    List<Text> read = new ArrayList<>();
    List<String[]> words = new ArrayList<>();
    int tokens = 0;
    while (tokens < TURN) {
      StringBuilder text = new StringBuilder();
      for (int said = 0; said < length; ) {
        String sentence = sentences.get(random.nextInt(sentences.size()));
        said += sentence.split(" ").length;
        text.append(sentence).append(' ');
      }
      Text of = analyzer.texts().read(text.toString());
      raw.add(text.toString());
      read.add(of);
      for (Sentence sentence : of.sentences()) {
        tokens += sentence.size();
        words.add(
            sentence.tokens().stream()
                .map(token -> token.span().of(of.raw()))
                .toArray(String[]::new));
      }
    }
    return new Texts(raw, read, words, tokens);
  }

  private void run(int length) throws InterruptedException {
    Texts texts = texts(length);
    Map<String, Runnable> ways = new LinkedHashMap<>();
    ways.put("OpenNLP, tags alone", () -> texts.words().forEach(this::tag));
    ways.put("OpenNLP, sentences, tokens and tags", () -> texts.raw().forEach(this::openNlp));
    ways.put("Lucene, EnglishAnalyzer", () -> texts.raw().forEach(this::lucene));
    ways.put("sentences and tokens", () -> texts.raw().forEach(analyzer.texts()::read));
    ways.put("cues", () -> texts.read().forEach(text -> text.sentences().forEach(this::cues)));
    ways.put(
        "concepts", () -> texts.read().forEach(text -> text.sentences().forEach(this::concepts)));
    ways.put("whole analysis", () -> texts.raw().forEach(this::analyze));
    Map<String, double[]> seconds = new LinkedHashMap<>();
    ways.keySet().forEach(name -> seconds.put(name, new double[ROUNDS]));
    for (int round = -WARM_UP; round < ROUNDS; round++) {
      for (Map.Entry<String, Runnable> way : ways.entrySet()) {
        double taken = processorSeconds(way.getValue());
        if (round >= 0) {
          Objects.requireNonNull(seconds.get(way.getKey()))[round] = taken;
        }
      }
    }
    System.out.printf(
        Locale.ROOT, "%nanswers of %d words: tokens a second, over OpenNLP's tags alone%n", length);
    double base = median(Objects.requireNonNull(seconds.get("OpenNLP, tags alone")));
    seconds.forEach(
        (name, taken) ->
            System.out.printf(
                Locale.ROOT,
                "  %-38s %6.2f  (%,.0f tokens/s)%n",
                name,
                base / median(taken),
                texts.tokens() / median(taken)));
    double[] ratios = new double[ROUNDS];
    for (int round = 0; round < ROUNDS; round++) {
      double one = wall(1, () -> texts.raw().forEach(this::analyze));
      ratios[round] = 2 * one / wall(2, () -> texts.raw().forEach(this::analyze));
    }
    System.out.printf(Locale.ROOT, "  two threads against one: %.2f%n", median(ratios));
  }

  private void tag(String[] words) {
    seen += tagger.tag(words).length;
  }

  private void openNlp(String text) {
    for (String sentence : detector.sentDetect(text)) {
      tag(SimpleTokenizer.INSTANCE.tokenize(sentence));
    }
  }

  private void lucene(String text) {
    try (TokenStream tokens = english.tokenStream("text", text)) {
      tokens.reset();
      while (tokens.incrementToken()) {
        seen++;
      }
      tokens.end();
    } catch (IOException e) {
      throw new IllegalStateException("the text is in memory", e);
    }
  }

  private void cues(Sentence sentence) {
    seen += lexicon.cues(sentence).size();
  }

  private void concepts(Sentence sentence) {
    seen += lexicon.concepts(sentence).size();
  }

  private void analyze(String text) {
    if (analyzer.analyze(prompt, "r", text).parts().isEmpty()) {
      throw new IllegalStateException("no part");
    }
  }

  private static double processorSeconds(Runnable work) {
    long begin = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    work.run();
    return (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - begin) / 1e9;
  }

  /** Returns the time that a number of threads take that each do the work. */
  private static double wall(int count, Runnable work) throws InterruptedException {
    List<Thread> threads = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      threads.add(new Thread(work));
    }
    long begin = System.nanoTime();
    threads.forEach(Thread::start);
    for (Thread thread : threads) {
      thread.join();
    }
    return (System.nanoTime() - begin) / 1e9;
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }

  /** Prints how long calls take from start to end; the first of each makes the archive. */
  private static void starts() throws IOException, InterruptedException {
    Path answer = Files.createTempFile("answer", ".txt");
    Files.writeString(answer, "A star fell into the pond, so the lanternweed grew faster.");
    String launcher = Path.of("cli", "bin", "everypart").toString();
    String question = DEMO.resolve("prompts/lost-star.txt").toString();
    Map<String, List<String>> calls = new LinkedHashMap<>();
    calls.put("java -version", List.of("java", "-version"));
    calls.put("outline", List.of(launcher, "outline", question));
    calls.put("check --quick", List.of(launcher, "check", "--quick", question, answer.toString()));
    calls.put("check", List.of(launcher, "check", question, answer.toString()));
    calls.put(
        "check --quick, plain java -jar",
        List.of(
            "java",
            "-jar",
            Path.of("cli", "target", "everypart.jar").toString(),
            "check",
            "--quick",
            question,
            answer.toString()));
    Map<String, double[]> seconds = new LinkedHashMap<>();
    calls.keySet().forEach(name -> seconds.put(name, new double[STARTS]));
    for (int round = -2; round < STARTS; round++) {
      for (Map.Entry<String, List<String>> call : calls.entrySet()) {
        long begin = System.nanoTime();
        int status =
            new ProcessBuilder(call.getValue())
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start()
                .waitFor();
        if (status != 0) {
          throw new IllegalStateException(call.getValue() + " ended with " + status);
        }
        if (round >= 0) {
          Objects.requireNonNull(seconds.get(call.getKey()))[round] =
              (System.nanoTime() - begin) / 1e9;
        }
      }
    }
    Files.delete(answer);
    System.out.println("\nfrom start to end, over java -version");
    double base = median(Objects.requireNonNull(seconds.get("java -version")));
    seconds.forEach(
        (name, taken) ->
            System.out.printf(Locale.ROOT, "  %-32s %6.1f%n", name, median(taken) / base));
  }
}

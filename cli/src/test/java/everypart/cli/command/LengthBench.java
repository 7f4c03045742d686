package everypart.cli.command;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.cli.report.CheckHtml;
import everypart.cli.report.CheckText;
import everypart.cli.report.Colours;
import everypart.cli.report.ResultJson;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;

/**
 * How the time of one response grows with its length: analysis and the three reports of check. A
 * program, not a test: docs/performance.md says how to run it.
 *
 * <p>Responses are made of the sentences and words of the demo set in random order. The processor
 * time of this thread is taken, the least of a few runs, after a warm-up; only its ratios mean
 * anything.
 */
final class LengthBench {
  private static final Path DEMO = Path.of("demo-data");
  private static final int BASE = 1_000;
  private static final int MEGABYTE = 1_000_000;

  private final CoverageAnalyzer analyzer = new CoverageAnalyzer(Lexicon.bundled());
  private final Random random = new Random(1);
  private final List<String> sentences = new ArrayList<>();
  private final List<String> words = new ArrayList<>();
  private final Prompt prompt;
  private long written;

  private LengthBench() throws IOException {
    prompt = analyzer.prompts().read("p", Files.readString(DEMO.resolve("prompts/lost-star.txt")));
    for (String text : DemoTexts.of(DEMO.resolve("class.csv")).values()) {
      for (Sentence sentence : analyzer.texts().read(text).sentences()) {
        sentences.add(sentence.span().of(text).replace('\n', ' '));
        sentence.tokens().stream().filter(t -> t.isWord()).forEach(t -> words.add(t.form()));
      }
    }
  }

  /** Prints the ratios. */
  public static void main(String[] arguments) throws IOException {
    new LengthBench().run();
  }

  private void run() {
    for (int i = 0; i < 5; i++) {
      seconds(sentences(BASE));
    }
    double base = least(sentences(BASE)) / BASE;
    System.out.println("time a sentence over that at 1,000 sentences");
    for (int count : List.of(10, 100, 1_000, 10_000, 100_000)) {
      System.out.printf(
          Locale.ROOT, "%,9d sentences  %.2f%n", count, least(sentences(count)) / count / base);
    }
    System.out.println("one line: time a megabyte over that of its first megabyte, 10 MB");
    print("words without any stop", inWords(" ", 10 * MEGABYTE));
    print("words with commas", inWords(", ", 10 * MEGABYTE));
    print("no white space", inWords(".", 10 * MEGABYTE));
    print("one letter again and again", "a".repeat(10 * MEGABYTE));
    print("stops only", ".".repeat(10 * MEGABYTE));
  }

  private void print(String name, String text) {
    double first = least(text.substring(0, MEGABYTE));
    System.out.printf(
        Locale.ROOT, "%-28s %.2f%n", name, least(text) * MEGABYTE / text.length() / first);
  }

  private String sentences(int count) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < count; i++) {
      text.append(sentences.get(random.nextInt(sentences.size()))).append(' ');
    }
    return text.toString();
  }

  private String inWords(String between, int length) {
    StringBuilder text = new StringBuilder();
    while (text.length() < length) {
      text.append(words.get(random.nextInt(words.size()))).append(between);
    }
    text.setLength(length);
    return text.toString();
  }

  private double least(String text) {
    double least = seconds(text);
    int more = text.length() < MEGABYTE ? 10 : 1;
    for (int i = 0; i < more; i++) {
      least = Math.min(least, seconds(text));
    }
    return least;
  }

  private double seconds(String text) {
    var threads = ManagementFactory.getThreadMXBean();
    long begin = threads.getCurrentThreadCpuTime();
    Coverage coverage = analyzer.analyze(prompt, "r", text);
    written += ResultJson.pretty(coverage, Optional.empty()).length();
    StringWriter lines = new StringWriter();
    new CheckText(Colours.OFF).write(coverage, new PrintWriter(lines, true));
    written += lines.toString().length();
    written += CheckHtml.of(coverage, Optional.empty()).length();
    return (threads.getCurrentThreadCpuTime() - begin) / 1e9;
  }

  @Override
  public String toString() {
    return "LengthBench, " + written + " chars written";
  }
}

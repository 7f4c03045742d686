package everypart.analyzer.detect;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.assign.PartAssigner;
import everypart.analyzer.assign.Stretch;
import everypart.analyzer.coverage.CalibrationBench;
import everypart.analyzer.coverage.CodedAnswers;
import everypart.analyzer.coverage.CodedAnswers.Coded;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.prompt.PromptYaml;
import everypart.analyzer.study.agreement.ConfusionTable;
import everypart.analyzer.study.statistics.Level;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Scores coded answers with one stage at a time left out. With {@code --write}, puts the table into
 * {@code docs/accuracy.md}. Run it in the project's root folder with the folders of coded answers.
 */
public final class AblationBench {
  private static final Path PAGE = Path.of("docs/accuracy.md");
  private static final String HEADING = "## What each stage earns";

  /** How text is given to parts. */
  private enum Placing {
    ALIGNED,
    EVERY_SENTENCE_TO_EVERY_PART
  }

  /**
   * A way to run the program.
   *
   * @param stimulus whether the detectors may see the prompt's stimulus
   * @param mends whether misspellings are mended
   */
  private record Way(Detectors detectors, Placing placing, boolean stimulus, boolean mends) {
    Way(Detectors detectors, Placing placing, boolean stimulus) {
      this(detectors, placing, stimulus, true);
    }
  }

  /** Credits a demand with any clause, or with any clause that has a word the question lacks. */
  private record Lenient(DemandKind kind, boolean newWords) implements Detector {
    @Override
    public String summary() {
      return newWords ? "has a word that the question lacks" : "says anything";
    }

    @Override
    public Finding judge(Case given) {
      List<Clause> making =
          given.own().stream().filter(clause -> !newWords || given.novelty(clause) > 0).toList();
      return making.isEmpty() ? given.missing(0, "nothing") : given.found(making, 1, "something");
    }
  }

  private final Lexicon lexicon = Lexicon.bundled();
  private final TextReader texts = new TextReader(lexicon.forms()::stem);
  private final PartAssigner assigner = new PartAssigner(lexicon, texts);
  private final Lexicon asSpelled = Lexicon.asSpelled();
  private final TextReader textsAsSpelled = new TextReader(asSpelled.forms()::stem);
  private final PartAssigner assignerAsSpelled = new PartAssigner(asSpelled, textsAsSpelled);

  private AblationBench() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException {
    new AblationBench().run(List.of(args));
  }

  private void run(List<String> args) throws IOException {
    PromptYaml yaml = new PromptYaml(new PromptReader(lexicon));
    Map<String, List<Coded>> sets = new LinkedHashMap<>();
    for (String arg : args) {
      if (!arg.equals("--write")) {
        for (Coded coded : CodedAnswers.read(Path.of(arg), yaml)) {
          sets.computeIfAbsent(coded.set(), key -> new ArrayList<>()).add(coded);
        }
      }
    }
    StringBuilder table = new StringBuilder();
    table.append(HEADING).append('\n');
    add(
        table,
        "Measured on %s: kappa, and in brackets precision and recall of \"missing\", with one stage"
            + " left out at a time.%n%n",
        LocalDate.now(ZoneOffset.UTC));
    add(table, "| left out | %s |%n", String.join(" | ", sets.keySet()));
    add(table, "|---|%s%n", "---|".repeat(sets.size()));
    ways()
        .forEach(
            (name, way) -> {
              List<String> cells = new ArrayList<>();
              sets.values().forEach(set -> cells.add(score(set, way)));
              add(table, "| %s | %s |%n", name, String.join(" | ", cells));
            });
    table.append(
        """

        Copied wording, text off the subject, answers under another part's label and misspelt cues hardly occur in these sets.
        What they earn is held by `DetectorPropertiesTest`, `ReferencesTest`, `SpellingTest` and the demo data.

        To measure it anew after `mvn -Dquick -DskipTests package`, with the folders of coded answers:

            java -cp analyzer/target/test-classes:cli/target/everypart.jar \\
              everypart.analyzer.detect.AblationBench --write FOLDER...
        """);
    System.out.print(table);
    if (args.contains("--write")) {
      CalibrationBench.replaceSection(PAGE, HEADING, table.toString());
    }
  }

  private Map<String, Way> ways() {
    Detectors whole = new Detectors(lexicon);
    Map<String, Way> ways = new LinkedHashMap<>();
    ways.put("nothing", new Way(whole, Placing.ALIGNED, true));
    Map<Stage, String> names =
        Map.of(
            Stage.COPIES, "copied wording set aside",
            Stage.SUBJECT, "responses off the subject",
            Stage.ELSEWHERE, "the rest of the response, where the part has nothing",
            Stage.ROLES, "roles of clauses from connectives",
            Stage.SHARES, "text dealt out among demands of one kind");
    for (Stage stage : Stage.values()) {
      ways.put(
          names.getOrDefault(stage, stage.name()),
          new Way(
              new Detectors(lexicon, EnumSet.of(stage), Detectors.all()), Placing.ALIGNED, true));
    }
    ways.put(
        "misspellings mended", new Way(new Detectors(asSpelled), Placing.ALIGNED, true, false));
    ways.put("placing text by part", new Way(whole, Placing.EVERY_SENTENCE_TO_EVERY_PART, true));
    ways.put("the stimulus as something known", new Way(whole, Placing.ALIGNED, false));
    ways.put("detectors: any new word counts", new Way(lenient(true), Placing.ALIGNED, true));
    ways.put("detectors: anything counts", new Way(lenient(false), Placing.ALIGNED, true));
    return ways;
  }

  private Detectors lenient(boolean newWords) {
    List<Detector> all =
        Detectors.all().stream()
            .map(detector -> (Detector) new Lenient(detector.kind(), newWords))
            .toList();
    return new Detectors(lexicon, Set.of(), all);
  }

  private String score(List<Coded> set, Way way) {
    long[][] counts = new long[2][2];
    for (Coded coded : set) {
      Prompt given = coded.prompt();
      Text text = (way.mends() ? texts : textsAsSpelled).read(coded.text());
      Assignment aligned = (way.mends() ? assigner : assignerAsSpelled).assign(given, text);
      Prompt prompt = way.stimulus() ? given : withoutStimulus(given);
      Reading reading = way.detectors().read(prompt, text, aligned);
      int at = 0;
      for (Part part : prompt.parts()) {
        Reading own =
            way.placing() == Placing.ALIGNED
                ? reading
                : way.detectors().read(prompt, text, all(aligned, part));
        for (int place = 0; place < part.demands().size(); place++) {
          boolean right = coded.addressed().get(at++);
          boolean found = own.judge(part, place).found() > 0;
          counts[right ? 1 : 0][found ? 1 : 0]++;
        }
      }
    }
    double called = counts[0][0] + counts[1][0];
    double open = counts[0][0] + counts[0][1];
    return ConfusionTable.of(List.of("missing", "addressed"), counts)
            .kappa(Level.DEFAULT)
            .map(kappa -> String.format(Locale.ROOT, "%.3f", kappa.estimate().value()))
            .orElse("none")
        + String.format(
            Locale.ROOT,
            " (%.2f, %.2f)",
            called == 0 ? 0 : counts[0][0] / called,
            open == 0 ? 0 : counts[0][0] / open);
  }

  private static Prompt withoutStimulus(Prompt prompt) {
    return new Prompt(
        prompt.id(), prompt.title(), prompt.text(), "", prompt.parts(), prompt.remarks());
  }

  private static Assignment all(Assignment aligned, Part part) {
    return new Assignment(
        aligned.stretches().stream()
            .map(stretch -> new Stretch(stretch.sentence(), Optional.of(part.label())))
            .toList(),
        List.of(),
        List.of());
  }

  private static void add(StringBuilder text, String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values));
  }
}

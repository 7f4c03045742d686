package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The second subject of the demo data, and the commands for lexicons of one's own. */
final class LexiconCommandTest {
  private static final Path SUBJECT = Path.of("..", "demo-data", "economics");
  private static final Path LEXICON = SUBJECT.resolve("lexicon");
  private static final Path PROMPT = SUBJECT.resolve("lamp-oil.yaml");

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private static List<String> kinds(Run run) throws IOException {
    return new JsonMapper().readTree(run.out()).findValuesAsText("kind");
  }

  @Test
  void theSecondSubjectsLexiconIsWithoutFault() {
    Run run = Run.of("lexicon", "check", LEXICON);
    assertEquals(ExitStatus.DONE, run.status(), run.out());
    List<String> lines = run.out().lines().toList();
    assertTrue(lines.get(lines.size() - 1).startsWith("0 errors, "), run.out());
    assertTrue(
        lines.subList(0, lines.size() - 1).stream()
            .allMatch(line -> line.contains("takes the place") || line.contains("takes the name")),
        run.out());
  }

  @Test
  void itsVerbMakesADemandOnlyWithIt() throws IOException {
    assertFalse(kinds(Run.of("outline", "--format", "jsonl", PROMPT)).contains("calculate"));
    assertEquals(
        List.of("explain", "predict", "justify", "evaluate", "calculate"),
        kinds(Run.of("outline", "--format", "jsonl", "--lexicon", LEXICON, PROMPT)));
  }

  @Test
  void itsConceptsAreFoundInAnswers() throws IOException {
    Path text = Files.writeString(folder.resolve("a.txt"), "A price cap leads to scarcity.\n");
    String with = Run.of("trace", "--format", "jsonl", "--lexicon", LEXICON, text).out();
    assertTrue(with.contains("price ceiling") && with.contains("shortage"), with);
    assertFalse(Run.of("trace", "--format", "jsonl", text).out().contains("price ceiling"));
  }

  @Test
  void aStudyNamesTheLexiconItRestsOn() throws IOException {
    Run run =
        Run.of(
            "study",
            "--prompts",
            PROMPT,
            "--responses",
            SUBJECT.resolve("answers.csv"),
            "--lexicon",
            LEXICON,
            "--out",
            folder);
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    JsonNode log = new JsonMapper().readTree(folder.resolve("study.log.json").toFile());
    assertTrue(log.path("inputs").path("lexicon").toString().contains("concepts-economics.yaml"));
    String summary = Files.readString(folder.resolve("summary.json"));
    assertTrue(summary.contains("task-verbs-economics.yaml"));
  }

  @Test
  void anErrorIsNamedWithItsLine() throws IOException {
    Files.writeString(
        folder.resolve("concepts-own.yaml"),
        "- {concept: lamp, variants: [], relates: [glimmering], field: light}\n");
    Run check = Run.of("lexicon", "check", folder);
    assertEquals(ExitStatus.INPUT_LOST, check.status());
    assertTrue(check.out().contains("concepts-own.yaml, line 1"), check.out());
  }

  @Test
  void aFolderThatIsNotThereIsNamed() {
    Run run = Run.of("outline", "--lexicon", folder.resolve("none"), PROMPT);
    assertEquals(ExitStatus.INPUT_LOST, run.status());
    assertTrue(run.err().contains("no such folder"), run.err());
  }

  @Test
  void looksAConceptUpThoughItIsMisspelt() {
    Run run = Run.of("lexicon", "search", "osmosys");
    assertTrue(run.out().startsWith("osmosis (membranes and transport)"), run.out());
    Run own = Run.of("lexicon", "search", "--lexicon", LEXICON, "scarce");
    assertTrue(own.out().startsWith("shortage (markets)"), own.out());
  }

  @Test
  void showsAConceptByAnyOfItsNamesAndSaysWhatIsNear() {
    Run run = Run.of("lexicon", "show", "vasopressin");
    assertTrue(run.out().startsWith("antidiuretic hormone ("), run.out());
    Run typed = Run.of("lexicon", "show", "hypertonic");
    assertTrue(typed.out().contains("is the opposite of: hypotonic"), typed.out());
    assertTrue(typed.out().contains("nearest: "), typed.out());
    Run none = Run.of("lexicon", "show", "osmosys");
    assertEquals(ExitStatus.WRONG_CALL, none.status());
    assertTrue(none.err().contains("similar ones are: osmosis"), none.err());
  }
}

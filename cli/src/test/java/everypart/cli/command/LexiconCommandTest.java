package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.cli.run.ExitStatus;
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

  /** Writes a class in which eight of twelve answers name a thing that the lexicon lacks. */
  private Path classWithGlimmerPouch() throws IOException {
    StringBuilder rows = new StringBuilder("id,text\n");
    for (int i = 0; i < 12; i++) {
      rows.append("s")
          .append(i)
          .append(i < 8 ? ",\"The glimmer pouch, I think, fills up.\"\n" : ",It was cold.\n");
    }
    return Files.writeString(folder.resolve("class.csv"), rows);
  }

  @Test
  void suggestsAPhraseThatNoConceptCovers() throws IOException {
    Path answers = classWithGlimmerPouch();
    Path prompt =
        Files.writeString(folder.resolve("p.txt"), "Explain what the glimmer pouch does.");
    Run run = Run.of("lexicon", "suggest", "--from", answers);
    assertEquals(ExitStatus.DONE, run.status(), run.err());
    assertTrue(run.out().startsWith("answers read: 12; "), run.out());
    assertTrue(
        run.out().contains("glimmer pouch: 8 times in 8 answers, stands out by "), run.out());
    assertTrue(run.out().contains("\"The glimmer pouch, I think, fills up.\""), run.out());
    assertFalse(run.out().contains("the question has it"), run.out());

    Run bare =
        Run.of("lexicon", "suggest", "--from", answers, "--prompts", prompt, "--no-examples");
    assertTrue(bare.out().contains("; the question has it, too"), bare.out());
    assertFalse(bare.out().contains("I think"), bare.out());

    Path own = Files.createDirectory(folder.resolve("own"));
    Files.writeString(
        own.resolve("concepts-own.yaml"),
        "- {concept: glimmer pouch, variants: [], field: light}\n");
    Run known = Run.of("lexicon", "suggest", "--from", answers, "--lexicon", own);
    assertEquals(ExitStatus.DONE, known.status(), known.err());
    assertTrue(known.out().startsWith("answers read: 12; "), known.out());
    assertFalse(known.out().contains("glimmer pouch: "), known.out());
  }

  @Test
  void comparesWithOtherAnswersAndReadsFoldersAndJsonLines() throws IOException {
    Path answers = classWithGlimmerPouch();
    Run same = Run.of("lexicon", "suggest", "--from", answers, "--against", answers);
    assertEquals(ExitStatus.DONE, same.status(), same.err());
    assertTrue(same.out().startsWith("answers read: 12; no phrase"), same.out());

    Path rows = folder.resolve("rows.jsonl");
    Files.writeString(
        rows,
        "{\"response_id\":\"a\",\"prompt_id\":\"p\",\"text\":\"A glimmer pouch fills up.\"}\n");
    Path files = Files.createDirectory(folder.resolve("files"));
    Files.writeString(files.resolve("b.txt"), "Glimmer pouches fill up.");
    Run both = Run.of("lexicon", "suggest", "--from", rows, files, "--least", 2);
    assertEquals(ExitStatus.DONE, both.status(), both.err());
    assertTrue(both.out().startsWith("answers read: 2; "), both.out());
  }

  @Test
  void whatCannotBeLookedThroughGetsOneSentence() throws IOException {
    Path empty = Files.createDirectory(folder.resolve("empty"));
    Path broken = Files.write(folder.resolve("broken.docx"), new byte[] {1, 2, 3});
    for (Path bad : List.of(empty, broken, folder.resolve("none.csv"))) {
      Run run = Run.of("lexicon", "suggest", "--from", bad);
      assertEquals(ExitStatus.INPUT_LOST, run.status(), bad.toString());
      assertEquals("", run.out());
      assertEquals(1, run.err().lines().count(), run.err());
      assertTrue(run.err().contains(bad.getFileName().toString()), run.err());
    }
    Path header = Files.writeString(folder.resolve("header.csv"), "id,text\n");
    Run none = Run.of("lexicon", "suggest", "--from", header);
    assertEquals(ExitStatus.INPUT_LOST, none.status(), none.err());
    assertTrue(none.err().contains("header.csv: there is no response in it, since"), none.err());

    Path oddly = Files.writeString(folder.resolve("oddly.csv"), "who,what,when\na,Frobbits.,May\n");
    Run named = Run.of("lexicon", "suggest", "--from", oddly, "--columns", "id=who,text=what");
    assertEquals(ExitStatus.DONE, named.status(), named.err());
    assertTrue(named.out().startsWith("answers read: 1; no phrase"), named.out());

    Path lost = folder.resolve("none.jsonl");
    Run half = Run.of("lexicon", "suggest", "--from", lost, broken, classWithGlimmerPouch());
    assertTrue(half.err().contains("none.jsonl") && half.err().contains("broken.docx"), half.err());
    assertEquals(ExitStatus.INPUT_LOST, half.status());
    assertTrue(half.out().contains("glimmer pouch: 8 times"), half.out());
  }

  @Test
  void aWrongCallToSuggestIsExplained() {
    Run none = Run.of("lexicon", "suggest");
    assertEquals(ExitStatus.WRONG_CALL, none.status());
    assertTrue(none.err().contains("--from is needed"), none.err());
    for (String option : List.of("--most", "--least", "--longest")) {
      Run run = Run.of("lexicon", "suggest", "--from", folder, option, "0");
      assertEquals(ExitStatus.WRONG_CALL, run.status());
      assertTrue(run.err().contains(option + " 0"), run.err());
    }
  }
}

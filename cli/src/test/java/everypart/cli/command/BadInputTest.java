package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.intake.Arrival;
import everypart.cli.intake.Arrivals;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Place;
import everypart.cli.intake.Response;
import everypart.cli.intake.Room;
import everypart.cli.intake.UniqueIds;
import everypart.cli.intake.WithinMemory;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Each bad input gets one sentence that says what, where and how to mend it; the rest is done. */
class BadInputTest {
  private static final String QUESTION =
      "(a) Describe the tide pool.\n(b) Explain why the pipkins hide.\n";

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  @SuppressWarnings("NullAway.Init")
  private Path question;

  @BeforeEach
  void writeQuestion() throws IOException {
    question = write("question.txt", QUESTION);
  }

  private Path write(String name, String text) throws IOException {
    Path file = folder.resolve(name);
    Files.createDirectories(file.getParent());
    return Files.writeString(file, text);
  }

  private Run screen(Object... responses) {
    Object[] words = new Object[responses.length + 4];
    words[0] = "screen";
    words[1] = question;
    System.arraycopy(responses, 0, words, 2, responses.length);
    words[words.length - 2] = "--out";
    words[words.length - 1] = folder.resolve("out");
    return Run.of(words);
  }

  private List<String> results() throws IOException {
    return Files.readAllLines(folder.resolve("out/results.jsonl"));
  }

  private static void says(Run run, int status, String... words) {
    List<String> sentences = run.err().lines().filter(line -> line.contains("; ")).toList();
    assertAll(
        () -> assertEquals(status, run.status(), run.err()),
        () -> {
          for (String word : words) {
            assertTrue(run.err().contains(word), word + " is not in: " + run.err());
          }
        },
        () -> assertFalse(run.err().contains("Exception"), run.err()),
        () -> assertFalse(sentences.isEmpty(), "no advice in: " + run.err()));
  }

  @Test
  void aMissingPromptIsNamed() {
    Run run = Run.of("check", folder.resolve("nothing.txt"), question);
    says(run, 3, "nothing.txt: there is no such file; check the name");
    assertEquals("", run.out());
  }

  @Test
  void aMissingResponseIsNamedAndTheOthersAreRead() throws IOException {
    Run run = screen(folder.resolve("gone.txt"), write("s1.txt", "The pool is deep."));
    says(run, 3, "gone.txt: there is no such file");
    assertEquals(1, results().size());
  }

  @Test
  void textInAnOlderEncodingIsReadAndNoted() throws IOException {
    Path file = folder.resolve("old.txt");
    Files.write(file, "The pool\nis na\u00efve.".getBytes(Charset.forName("windows-1252")));
    says(
        Run.of("check", question, file),
        0,
        "old.txt: the file does not say its encoding, and it is not UTF-8",
        "save it as UTF-8");
    assertTrue(Run.of("check", question, file).out().contains("na\u00efve"));
  }

  @Test
  void textWithAByteOrderMarkIsReadWithoutIt() throws IOException {
    Path file = folder.resolve("marked.txt");
    Files.write(file, "\ufeffThe pool is deep.".getBytes(StandardCharsets.UTF_16LE));
    Run run = Run.of("check", question, file, "--format", "json");
    assertEquals(0, run.status(), run.err());
    assertTrue(run.out().contains("\"The pool is deep"), run.out());
  }

  @Test
  void aPromptThatIsTooLongIsNamedAndTheOthersAreRead() throws IOException {
    write("prompts/long.txt", "(a) Explain why they hide.\n".repeat(20_000));
    write("prompts/short.txt", QUESTION);
    Run run = Run.of("outline", folder.resolve("prompts"), "--format", "jsonl");
    says(run, 3, "long.txt: it has more than 500000 characters of text", "--limit prompt=N");
    assertEquals(1, run.out().lines().count());
  }

  @Test
  void aPromptIsNamedWhenWhatFollowsItsFirstDocumentIsBroken() throws IOException {
    Path prompt = write("two.yaml", "parts:\n  - {label: a, text: Why}\n---\n- x: [\n  ]: }\n");
    says(Run.of("outline", prompt), 3, "two.yaml: ", "no valid YAML");
  }

  @Test
  void anAnswerAsLongAsABookIsNamedAndTheOthersAreRead() throws IOException {
    write("set/s1.txt", "The pool is deep. ".repeat(340_000));
    write("set/s2.txt", "The pool is deep.");
    says(screen(folder.resolve("set")), 3, "s1.txt: it has more than 6000000 characters of text");
    assertEquals(1, results().size());
  }

  @Test
  void whatAClassHasBeyondTheMemoryIsLeftOut() throws IOException {
    List<Arrival> all =
        List.of(
            response("s1", "a".repeat(1_000)),
            response("s2", "a".repeat(1_000)),
            response("s3", "a"));
    List<Arrival> passed = passed(all, 7_000);
    assertEquals(all.get(0), passed.get(0));
    assertTrue(((InputProblem) passed.get(1)).sentence().contains("larger than the memory"));
    assertEquals(all.get(2), passed.get(2));
  }

  @Test
  void veryLongTextsLeaveRoomForTheOthers() throws IOException {
    Response book = response("s1", "a".repeat(200_000));
    List<Arrival> passed = passed(List.of(book, book, book, response("s2", "a")), 1_000_000);
    assertEquals(book, passed.get(0));
    assertTrue(passed.get(1) instanceof InputProblem, "a second book takes more than half");
    assertTrue(passed.get(2) instanceof InputProblem, "so does a third");
    assertTrue(passed.get(3) instanceof Response, "a short answer has room");
  }

  @Test
  void signsThatTakeMoreOnThePageTakeMoreRoom() throws IOException {
    Response plain = response("s1", "a".repeat(1_000));
    Response tags = response("s2", "<".repeat(1_000));
    Response cyrillic = response("s3", "\u0436".repeat(1_000));
    assertTrue(passed(List.of(plain), 4_000).get(0) instanceof Response);
    assertTrue(passed(List.of(tags), 8_999).get(0) instanceof InputProblem);
    assertTrue(passed(List.of(tags), 9_000).get(0) instanceof Response);
    assertTrue(passed(List.of(cyrillic), 5_999).get(0) instanceof InputProblem);
    assertTrue(passed(List.of(cyrillic), 6_000).get(0) instanceof Response);
  }

  private static List<Arrival> passed(List<Arrival> all, long most) throws IOException {
    List<Arrival> passed = new ArrayList<>();
    try (Arrivals held = new WithinMemory(arrivals(all), new Room(most))) {
      held.forEachRemaining(passed::add);
    }
    assertEquals(all.size(), passed.size());
    return passed;
  }

  @Test
  void manyRowsWithOneIdAreNumberedInOneLook() throws IOException {
    int rows = 100_000;
    List<Arrival> all = Collections.nCopies(rows, response("r", "They hide."));
    List<InputProblem> told = new ArrayList<>();
    try (UniqueIds ids = new UniqueIds(arrivals(all), told::add)) {
      String last =
          assertTimeoutPreemptively(
              Duration.ofSeconds(60),
              () -> {
                String id = "";
                while (ids.hasNext()) {
                  id = ((Response) ids.next()).id();
                }
                return id;
              });
      assertEquals("r#" + rows, last);
    }
    assertEquals(rows - 1, told.size());
  }

  @Test
  void messagesEndAfterTheFirstThousand() throws IOException {
    Path sheet = write("same.csv", "response_id,text\n" + "r1,They hide.\n".repeat(3_000));
    Run run = screen(sheet);
    says(run, 3, "messages: there are more than 1000, and the rest is not listed");
    assertTrue(run.err().lines().count() < 1_010, "lines: " + run.err().lines().count());
    assertEquals(3_000, results().size());
  }

  @Test
  void aSheetWithoutARowIsNamedAndTheOthersAreRead() throws IOException {
    write("set/none.csv", "response_id,text\n,\n");
    write("set/s2.txt", "The pool is deep.");
    says(screen(folder.resolve("set")), 3, "none.csv: there is no response in it");
    assertEquals(1, results().size());
    says(
        Run.of("check", question, folder.resolve("set/none.csv")), 3, "there is no response in it");
    Path book = write("book.txt", "The pool is deep. ".repeat(340_000));
    says(Run.of("check", question, book), 3, "book.txt: it has more than 6000000 characters");
  }

  @Test
  void whatIsNoListOfNamesIsNamed() throws IOException {
    Path answer = write("s1.txt", "The pool is deep.");
    Path line = write("line.txt", "Oda ".repeat(30_000));
    says(screen(answer, "--redact", line), 3, "line.txt: this is no list of names");
    Path many = write("many.txt", "Oda Lin\n".repeat(20_000));
    says(screen(answer, "--redact", many), 3, "many.txt: this is no list of names");
    Path large = write("large.txt", "Oda Lin\n".repeat(800_000));
    says(screen(answer, "--redact", large), 3, "large.txt: it has more than 6000000 characters");
  }

  @Test
  void codersBeyondCountingAreNamed() throws IOException {
    assertEquals(0, screen(write("s1.txt", "The pool is deep.")).status());
    StringBuilder codes = new StringBuilder("response_id,part,demand,coder,code\n");
    for (int i = 0; i < 101; i++) {
      codes.append("s1,a,1,c").append(i).append(",1\n");
    }
    says(
        Run.of(
            "agree",
            "--codes",
            write("codes.csv", codes.toString()),
            "--results",
            folder.resolve("out/results.jsonl")),
        3,
        "codes.csv: the column \"coder\" names 101 coders");
  }

  private static Response response(String id, String text) {
    return new Response(id, Optional.empty(), text, Map.of(), Place.file(id));
  }

  private static Arrivals arrivals(List<Arrival> all) {
    Iterator<Arrival> each = all.iterator();
    return new Arrivals() {
      @Override
      public boolean hasNext() {
        return each.hasNext();
      }

      @Override
      public Arrival next() {
        return each.next();
      }

      @Override
      public void close() {}
    };
  }

  @Test
  void aFileThatIsNoTextIsNamedAndTheOthersAreRead() throws IOException {
    Files.createDirectories(folder.resolve("set"));
    Files.write(folder.resolve("set/s1.txt"), new byte[] {1, 0, 2, 0, (byte) 0x81});
    write("set/s2.txt", "The pool is deep.");
    says(screen(folder.resolve("set")), 3, "s1.txt: this is not a text file");
    assertEquals(1, results().size());
  }

  @Test
  void aFileOfAnUnknownKindIsNamedAndTheOthersAreRead() throws IOException {
    write("set/s1.tune", "la");
    write("set/s2.txt", "The pool is deep.");
    says(screen(folder.resolve("set")), 3, "s1.tune: files of this kind (.tune) are not read");
    assertEquals(1, results().size());
  }

  @Test
  void anUnreadableFileInAFolderIsNamedAndTheOthersAreRead() throws IOException {
    Files.createDirectories(folder.resolve("set"));
    Files.createSymbolicLink(folder.resolve("set/s1.txt"), folder.resolve("set/away.txt"));
    write("set/s2.txt", "The pool is deep.");
    says(screen(folder.resolve("set")), 3, "s1.txt: there is no such file");
    assertEquals(1, results().size());
  }

  @Test
  void anEmptyFolderIsNamed() throws IOException {
    Files.createDirectories(folder.resolve("set"));
    says(screen(folder.resolve("set")), 3, "set: there is no file in this folder");
  }

  @Test
  void aCsvWithoutItsColumnIsNamedWithTheColumnsItHas() throws IOException {
    says(
        screen(write("class.csv", "response_id,mark\nr1,7\n")),
        3,
        "class.csv, line 1: the header has no column that holds the answers (it has: response_id,"
            + " mark)");
  }

  @Test
  void anEmptyCsvIsNamed() throws IOException {
    says(screen(write("class.csv", "")), 3, "class.csv: the file is empty (0 bytes)");
  }

  @Test
  void aRowOfTheWrongLengthIsNamedAndTheOthersAreRead() throws IOException {
    says(
        screen(write("class.csv", "response_id,text\nr1,\"a\nb\"\nr2,deep, dark\nr3,deep\n")),
        3,
        "class.csv, line 4: this row has 3 cells, the header has 2");
    assertEquals(2, results().size());
  }

  @Test
  void aQuoteThatNeverClosesIsNamedAndWhatStandsBeforeItIsRead() throws IOException {
    says(
        screen(write("class.csv", "response_id,text\nr1,deep\nr2,\"dark\nr3,deep\n")),
        3,
        "class.csv, line 3: a quote is wrong in the row that begins here");
    assertEquals(1, results().size());
  }

  @Test
  void aPromptWithoutDemandIsNamed() throws IOException {
    Path bare = write("bare.txt", "The sea.\n");
    Run run = Run.of("check", bare, write("s1.txt", "Blue."));
    says(
        run,
        3,
        "bare.txt, line 1: no demand was found in this prompt (look at \"The sea.\"); say what is"
            + " to");
    assertEquals(0, Run.of("outline", bare).status());
  }

  @Test
  void aPartWithoutDemandIsNamedInTheOutlineAndAtTheTopOfEveryReport() throws IOException {
    Path bare = write("bare.txt", "(a) Name the sea.\n(b) The sea is deep.\n");
    Path response = write("s1.txt", "(a) The green sea.");
    String doubt = "no demand was found in part b: look at \"The sea is deep.\"";
    says(
        Run.of("outline", bare),
        0,
        "bare.txt, line 2: no demand was found in part b (look at \"The sea is deep.\"); say");
    assertTrue(Run.of("outline", bare).out().replaceAll("\\s+", " ").contains("look: " + doubt));
    assertTrue(Run.of("check", bare, response).out().replaceAll("\\s+", " ").contains(doubt));
    String escaped = doubt.replace("\"", "&quot;");
    String page = Run.of("check", "--format", "html", bare, response).out();
    assertTrue(page.indexOf(escaped) > 0 && page.indexOf(escaped) < page.indexOf("<details"), page);
    Path out = folder.resolve("out");
    Run.of("screen", bare, response, "--out", out);
    String index = Files.readString(out.resolve("index.html"));
    assertTrue(index.indexOf(escaped) > 0 && index.indexOf(escaped) < index.indexOf("id=\"grid\""));
    Path rows = write("rows.csv", "response_id,prompt_id,text\nr1,bare,The green sea.\n");
    Run.of("study", "--prompts", bare, "--responses", rows, "--out", folder.resolve("study"));
    String report = Files.readString(folder.resolve("study/report.html"));
    assertTrue(report.indexOf(escaped) > 0 && report.indexOf(escaped) < report.indexOf("<main"));
  }

  @Test
  void aModelAnswerGoesWithOnePromptAndIsNotEmpty() throws IOException {
    write("prompts/p.md", QUESTION);
    write("prompts/q.txt", QUESTION);
    Path folderOfTwo = folder.resolve("prompts");
    assertEquals(2, Run.of("outline", "--to-yaml", folderOfTwo).status());
    assertEquals(
        2, Run.of("outline", question, "--format", "json", "--model-answer", question).status());
    Path empty = write("empty.txt", " \n");
    says(
        Run.of("outline", question, "--model-answer", empty),
        3,
        "empty.txt: the model answer is empty; write into it what a full answer says");
    says(Run.of("outline", question, "--model-answer", folder.resolve("none.txt")), 3, "none.txt");
  }

  @Test
  void brokenYamlIsNamedWithItsLineAndTheOtherPromptsAreRead() throws IOException {
    write("prompts/bad.yaml", "parts:\n  - label: a\n   text: [\n");
    write("prompts/good.txt", QUESTION);
    Run run = Run.of("outline", "--format", "jsonl", folder.resolve("prompts"));
    says(run, 3, "bad.yaml: the prompt cannot be read: line 3");
    assertEquals(1, run.out().lines().count());
  }

  @Test
  void aKindThatIsNoneIsNamed() throws IOException {
    Path file =
        write(
            "p.yaml", "parts:\n  - label: a\n    text: Muse.\n    demands:\n      - kind: muse\n");
    says(Run.of("outline", file), 3, "p.yaml: the prompt cannot be read", "\"muse\" is no kind");
  }

  @Test
  void twoPromptsOfOneIdAreNamed() throws IOException {
    write("prompts/p.md", QUESTION);
    write("prompts/p.txt", QUESTION);
    Run run = Run.of("outline", "--format", "jsonl", folder.resolve("prompts"));
    says(run, 3, "p.txt: its id \"p\" is already that of", "p.md; give one of the two another");
    assertEquals(1, run.out().lines().count());
  }

  @Test
  void aDuplicateIdIsNamedAndBothAreRead() throws IOException {
    says(
        screen(write("class.csv", "response_id,text\nr1,deep\nr1,dark\n")),
        3,
        "class.csv, line 3: the id \"r1\" is already taken, so this response is listed as"
            + " \"r1#2\"");
    assertTrue(results().get(1).contains("\"responseId\":\"r1#2\""));
  }

  @Test
  void aRowWithoutIdIsNamed() throws IOException {
    says(
        screen(write("class.csv", "response_id,text\n,deep\nr2,dark\n")),
        3,
        "class.csv, line 2: response_id is empty");
    assertEquals(1, results().size());
  }

  @Test
  void aResponseForAnUnknownPromptIsNamedAndTheOthersAreRead() throws IOException {
    says(
        screen(write("class.csv", "response_id,prompt_id,text\nr1,other,deep\nr2,question,dark\n")),
        3,
        "class.csv, line 2: response \"r1\" is for prompt \"other\", which was not read");
    assertEquals(1, results().size());
  }

  @Test
  void aResponseThatNamesNoneOfSeveralPromptsIsNamed() throws IOException {
    write("prompts/p.txt", QUESTION);
    write("prompts/q.txt", QUESTION);
    Run run =
        Run.of(
            "study",
            "--prompts",
            folder.resolve("prompts"),
            "--responses",
            write("class.csv", "response_id,text\nr1,deep\n"),
            "--out",
            folder.resolve("out"));
    says(run, 3, "class.csv, line 2: response \"r1\" names no prompt, and there are 2");
  }

  @Test
  void aFileWhereTheOutputFolderShouldBeIsNamedAndLeftAsItIs() throws IOException {
    Path file = write("out", "mine");
    says(screen(write("s1.txt", "deep")), 2, "out: this is a file, not a folder; give --out");
    assertEquals("mine", Files.readString(file));
  }

  @Test
  void anOutputFolderThatCannotBeMadeIsNamed() throws IOException {
    Path file = write("plain", "mine");
    Run run = Run.of("screen", question, write("s1.txt", "deep"), "--out", file.resolve("inside"));
    says(run, 2, "inside: nothing can be written into this folder; give --out");
  }

  @Test
  void earlierResultsStayWholeWhenALaterRunFails() throws IOException {
    assertEquals(0, screen(write("s1.txt", "deep")).status());
    List<String> before = results();
    Run run =
        Run.of("screen", folder.resolve("gone.txt"), question, "--out", folder.resolve("out"));
    assertEquals(3, run.status());
    assertEquals(before, results());
    try (var files = Files.list(folder.resolve("out"))) {
      assertEquals(
          List.of("demands.csv", "index.html", "matrix.csv", "results.jsonl"),
          files
              .map(path -> path.getFileName().toString())
              .filter(name -> !name.startsWith("."))
              .sorted()
              .toList());
    }
  }

  @Test
  void badCodesAreNamedAndTheOthersCount() throws IOException {
    screen(write("s1.txt", "The pool is deep."));
    Path codes =
        write(
            "codes.csv",
            """
            response_id,part,demand,coder,code
            s1,a,1,c1,1
            s1,b,one,c1,1
            s1,b,1,c1,yes
            s9,a,1,c1,0
            """);
    Run run = Run.of("agree", "--codes", codes, "--results", folder.resolve("out/results.jsonl"));
    says(
        run,
        3,
        "codes.csv, line 3: demand is \"one\"",
        "codes.csv, line 4: code is \"yes\"",
        "1 code by c1 is for a demand without a verdict");
    assertTrue(run.out().contains("program and c1"), run.out());
  }

  @Test
  void resultsThatAreNoneAreNamed() throws IOException {
    Path results = write("results.jsonl", "{\"responseId\":\"r1\",\"parts\":[]}\nnone\n");
    Path codes = write("codes.csv", "response_id,part,demand,code\n");
    says(
        Run.of("agree", "--codes", codes, "--results", results),
        3,
        "results.jsonl, line 2: this line is no result");
  }
}

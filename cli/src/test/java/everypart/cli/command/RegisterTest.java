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
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A class set beside the list of the class: a row for everyone, and nobody twice. */
class RegisterTest {
  private static final JsonMapper JSON = new JsonMapper();
  private static final String REGISTER =
      "id,name\ns1,Oda Lin\ns2,Ferrin Holt\ns3,Bo Mar\ns4,Zo\u00eb Lin\ns5,Ida Rue\n";

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private Path write(String name, String text) throws IOException {
    Path file = folder.resolve(name);
    Files.createDirectories(folder.resolve(name).resolveSibling("."));
    return Files.writeString(file, text);
  }

  private Run screen(Object... rest) throws IOException {
    List<Object> words =
        new ArrayList<>(List.of("screen", write("q.txt", "(a) Explain why the pipkins hide.\n")));
    words.addAll(List.of(rest));
    words.addAll(List.of("--out", folder.resolve("out")));
    return Run.of(words.toArray());
  }

  private List<JsonNode> results() throws IOException {
    List<JsonNode> results = new ArrayList<>();
    for (String line : Files.readAllLines(folder.resolve("out/results.jsonl"))) {
      results.add(JSON.readTree(line));
    }
    return results;
  }

  private List<String> ids() throws IOException {
    return results().stream().map(one -> one.path("responseId").asText()).toList();
  }

  private List<String> handedIn() throws IOException {
    return results().stream().map(one -> one.path("groups").path("handed_in").asText()).toList();
  }

  private Path set() throws IOException {
    write("set/Holt_Ferrin final.txt", "They hide because birds hunt them.");
    write("set/oda lin.txt", "Under the stones no bird can find them.");
    write("set/Oda Lin (1).txt", "Birds hunt them.");
    write("set/zoe_LIN.docx", "this is no document");
    write("set/Ida Rue/one.txt", "They crawl under stones");
    write("set/Ida Rue/two.txt", "so no bird can find them.");
    return write("set/lin.txt", "It could be either of the two.").resolveSibling(".").normalize();
  }

  @Test
  void everyoneHasARowAndNobodyTwo() throws IOException {
    Run run = screen(set(), "--register", write("class.csv", REGISTER));
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    assertEquals(List.of("s1", "s2", "s3", "s4", "s5", "lin"), ids());
    assertEquals(
        List.of("yes", "yes", "nothing", "not readable", "yes", "not on the register"), handedIn());
    assertEquals(7, Files.readAllLines(folder.resolve("out/matrix.csv")).size());
    for (int row : new int[] {0, 1, 4}) {
      JsonNode whole = results().get(row).path("parts").get(0);
      assertEquals("addressed", whole.path("verdict").asText(), "" + whole);
    }
    assertEquals("missing", results().get(2).path("parts").get(0).path("verdict").asText());
    assertTrue(run.err().contains("2 answers are from s1 ("), run.err());
    assertTrue(run.err().contains("2 answers are from s5 ("), run.err());
    assertTrue(run.err().contains("\"lin\" fits nobody on the register, or more than one"));
    assertTrue(run.err().contains("1 of 5 handed in nothing: s3"), run.err());
    assertTrue(run.err().contains("1 of 5 handed in something that could not be read: s4"));
    String page = Files.readString(folder.resolve("out/index.html"));
    assertTrue(page.contains("handed in nothing: s3"));
  }

  @Test
  void pseudonymsHideTheRegisterToo() throws IOException {
    Run run =
        screen(
            set(),
            "--register",
            write("class.csv", REGISTER),
            "--pseudonyms",
            folder.resolve("key"));
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    assertEquals(new TreeSet<>(ids()).stream().toList(), ids());
    assertEquals(6, ids().size());
    assertTrue(handedIn().contains("nothing") && handedIn().contains("not readable"));
    String page = Files.readString(folder.resolve("out/index.html"));
    // Words that no pseudonym can hold: those are twelve signs of another set.
    for (String name : List.of("\"s3\"", "nothing: s3", "Oda Lin", "Holt_Ferrin", "from s1 (")) {
      assertFalse(page.contains(name), name);
    }
  }

  @Test
  void rowsOfASheetAreMatchedByIdAndByName() throws IOException {
    Path sheet =
        write("answers.csv", "response_id,text\nFERRIN HOLT,They hide from birds.\ns3,No idea.\n");
    Run run = screen(sheet, "--register", write("class.csv", REGISTER));
    assertEquals(0, run.status(), run.err());
    assertEquals(List.of("s1", "s2", "s3", "s4", "s5"), ids());
    assertEquals(List.of("nothing", "yes", "yes", "nothing", "nothing"), handedIn());
  }

  @Test
  void withoutARegisterNamesThatAreAlikeAreTold() throws IOException {
    write("few/ada.txt", "They hide.");
    write("few/ada final.txt", "They hide because birds hunt them.");
    write("few/ben.txt", "They hide.");
    Run run = screen(folder.resolve("few"));
    assertEquals(0, run.status(), run.err());
    assertEquals(3, ids().size());
    assertTrue(
        run.err().contains("its name is like that of \"ada final\", so both may be from one"),
        run.err());
    assertEquals(1, run.err().split("may be from one", -1).length - 1, run.err());
  }

  @Test
  void aBadRegisterIsNamed() throws IOException {
    Run empty = screen(set(), "--register", write("class.csv", "id,name\n"));
    assertEquals(ExitStatus.INPUT_LOST, empty.status());
    assertTrue(empty.err().contains("there is nobody on this register"), empty.err());
    Run twice = screen(set(), "--register", write("class.csv", REGISTER + "s1,Oda Fry\n ,x\n"));
    assertTrue(twice.err().contains("class.csv, line 7: \"s1\" stands on the register twice"));
    assertTrue(twice.err().contains("class.csv, line 8: nobody is named"), twice.err());
    Run none = screen(set(), "--register", folder.resolve("no.csv"));
    assertEquals(ExitStatus.INPUT_LOST, none.status(), none.err());
  }

  @Test
  void anEarlierDraftIsFoundUnderTheSamePerson() throws IOException {
    write("old/oda lin draft.txt", "They hide.");
    Run run =
        screen(
            set(), "--register", write("class.csv", REGISTER), "--earlier", folder.resolve("old"));
    assertEquals(ExitStatus.INPUT_LOST, run.status(), run.err());
    JsonNode change = results().get(0).path("revision").get(0);
    assertEquals("closed", change.path("change").asText(), "" + results().get(0));
    assertFalse(results().get(1).has("revision"));
  }
}

package everypart.lexicon;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LexiconFilesTest {
  @TempDir Path folder;

  private Lexicon with(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
    return Lexicon.load(List.of(folder));
  }

  private void refused(String name, String text, int line, String problem) {
    LexiconException e = assertThrows(LexiconException.class, () -> with(name, text));
    String message = String.valueOf(e.getMessage());
    assertTrue(message.contains(name + ", line " + line + ": "), message);
    assertTrue(message.contains(problem), message);
  }

  private static String family(String pattern) {
    return "cues:\n- type: hedge\n  family: mine\n  patterns:\n  - \"" + pattern + "\"\n";
  }

  @Test
  void aFamilyOfAFolderIsAddedAndOneOfTheSameNameTakesThePlace() throws IOException {
    Lexicon added = with("cues-mine.yaml", family("methinks"));
    assertTrue(
        added.cues(new Words("methinks so")).stream().anyMatch(c -> c.family().equals("mine")));
    Lexicon replaced =
        with("cues-mine.yaml", family("methinks").replace("family: mine", "family: hedge"));
    assertEquals(List.of(), replaced.cues(new Words("maybe")));
  }

  @Test
  void taskVerbsThatAreNestedTooDeepAreNamed() {
    LexiconException e =
        assertThrows(
            LexiconException.class, () -> with("task-verbs-mine.yaml", "[".repeat(20_000)));
    assertTrue(String.valueOf(e.getMessage()).contains("task-verbs-mine.yaml"), e.getMessage());
  }

  @Test
  void aConceptOfAFolderIsAdded() throws IOException {
    Lexicon lexicon =
        with(
            "concepts-mine.yaml",
            "- concept: wug\n  variants: [wugling]\n  relates: []\n  field: tests\n");
    assertEquals(
        List.of(new ConceptMatch("wug", new TokenRange(1, 2))),
        lexicon.concepts(new Words("two wuglings")));
  }

  @Test
  void aFileMayNameItsSubjectAndUnitAndTypeItsRelations() throws IOException {
    Lexicon lexicon =
        with(
            "concepts-mine.yaml",
            """
            subject: tests
            unit: wugs
            concepts:
            - concept: wug
              variants: [wugling, tick tock]
              everyday: [tick tock]
              never: [wug lamp]
              broader: [dabbet]
              opposite: [dabbet]
            - concept: dabbet
              variants: []
              field: dabbetry
            """);
    Concept wug = lexicon.concept("wug").orElseThrow();
    assertEquals("wugs", wug.field());
    assertEquals("tests", wug.subject());
    assertEquals(List.of("dabbet"), wug.relates());
    assertEquals(List.of("dabbet"), wug.related(RelationType.OPPOSITE));
    assertEquals(List.of(), wug.related(RelationType.CAUSES));
    assertEquals("dabbetry", lexicon.concept("dabbet").orElseThrow().field());
    assertEquals(List.of(), lexicon.concepts(new Words("one tick tock by a wug lamp")));
    assertEquals(2, lexicon.concepts(new Words("one tick tock by a dabbet")).size());
    refused(
        "concepts-mine.yaml",
        "- concept: wug\n  variants: []\n  everyday: [wag]\n  relates: []\n  field: x\n",
        3,
        "\"wag\" is everyday, but no name");
    refused("concepts-mine.yaml", "unit: wugs\n", 1, "lacks \"concepts\"");
  }

  @Test
  void mistakesAreToldWithFileAndLine() {
    refused("cues-a.yaml", family("one [two"), 5, "a [ is not closed");
    refused("cues-a.yaml", family("one {nosuchset}"), 5, "no word set {nosuchset}");
    refused("cues-a.yaml", family("one @shapeless"), 5, "no word shape @shapeless");
    refused("cues-a.yaml", family("one ..99 two"), 5, "a gap takes 1 to 15 words");
    refused("cues-a.yaml", family("one ..4"), 5, "a gap may stand between two words only");
    refused("cues-a.yaml", family("one//two"), 5, "an alternative is empty");
    refused(
        "cues-a.yaml", family("one").replace("hedge", "hegde"), 2, "\"hegde\" is no type of cue");
    refused("cues-a.yaml", family("one").replace("family", "famly"), 3, "\"famly\" is no key");
    refused("cues-a.yaml", family("one").replace("hedge", "cause-effect"), 2, "lacks \"cause\"");
    refused("cues-a.yaml", "cues: [", 1, "not valid YAML");
  }

  @Test
  void aConceptWithoutAKeyOrGivenTwiceIsRefused() throws IOException {
    refused(
        "concepts-a.yaml", "- concept: wug\n  relates: []\n  field: x\n", 1, "lacks \"variants\"");
    String wug = "- concept: wug\n  variants: []\n  relates: []\n  field: x\n";
    refused("concepts-a.yaml", wug + wug, 5, "stands on line 1 too");
  }

  @Test
  void aFileThatIsNotUtf8IsRefused() throws IOException {
    Files.write(folder.resolve("cues-a.yaml"), new byte[] {'a', ':', ' ', (byte) 0xe4});
    LexiconException e = assertThrows(LexiconException.class, () -> Lexicon.load(List.of(folder)));
    assertTrue(String.valueOf(e.getMessage()).contains("save it as UTF-8"));
  }

  @Test
  void aFolderThatIsNotThereIsRefused() {
    assertThrows(LexiconException.class, () -> Lexicon.load(List.of(folder.resolve("none"))));
  }
}

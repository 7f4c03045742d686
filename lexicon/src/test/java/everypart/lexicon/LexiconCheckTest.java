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

final class LexiconCheckTest {
  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private void file(String name, String text) throws IOException {
    Files.writeString(folder.resolve(name), text);
  }

  private void hears(LexiconRemark.Weight weight, String... words) {
    List<LexiconRemark> remarks = LexiconCheck.of(folder);
    assertTrue(
        remarks.stream()
            .filter(remark -> remark.weight() == weight)
            .anyMatch(remark -> List.of(words).stream().allMatch(remark.sentence()::contains)),
        remarks.toString());
  }

  private static String concept(String name, String variants, String relates) {
    return "- {concept: "
        + name
        + ", variants: "
        + variants
        + ", relates: "
        + relates
        + ", field: lamps}\n";
  }

  @Test
  void findsNothingInAGoodFolder() throws IOException {
    file("concepts-lamps.yaml", concept("lamp oil", "[tollop oil]", "[osmosis]"));
    assertEquals(List.of(), LexiconCheck.of(folder));
  }

  @Test
  void namesTheLineOfAMistake() throws IOException {
    file("concepts-lamps.yaml", concept("wick", "[]", "[]") + "- {concept: glass}\n");
    hears(LexiconRemark.Weight.ERROR, "concepts-lamps.yaml, line 2", "variants");
    file("concepts-lamps.yaml", "- {concept: [\n");
    hears(LexiconRemark.Weight.ERROR, "concepts-lamps.yaml, line");
    file("concepts-lamps.yaml", concept("wick", "[]", "[]"));
    file("task-verbs-lamps.yaml", "verbs:\n  - {kind: sing, place: start, forms: [chant]}\n");
    hears(LexiconRemark.Weight.ERROR, "task-verbs-lamps.yaml, line 2", "sing");
  }

  @Test
  void namesTheLineOfAControlSign() throws IOException {
    file("concepts-lamps.yaml", "# lamps\n" + concept("wi\u0004ck", "[]", "[]"));
    hears(LexiconRemark.Weight.ERROR, "concepts-lamps.yaml, line 2", "U+0004");
    file("concepts-lamps.yaml", "[".repeat(20_000));
    hears(LexiconRemark.Weight.ERROR, "concepts-lamps.yaml", "not valid YAML");
  }

  @Test
  void refusesWhatIsNoFileAndWhatIsTooLarge() throws IOException {
    Files.createSymbolicLink(folder.resolve("concepts-zero.yaml"), Path.of("/dev/zero"));
    LexiconException none = assertThrows(LexiconException.class, () -> LexiconCheck.of(folder));
    assertTrue(String.valueOf(none.getMessage()).contains("this is no file"), none.getMessage());
    Files.delete(folder.resolve("concepts-zero.yaml"));
    file("concepts-large.yaml", concept("wick", "[]", "[]").repeat(200_000));
    LexiconException large = assertThrows(LexiconException.class, () -> LexiconCheck.of(folder));
    assertTrue(String.valueOf(large.getMessage()).contains("8 MB"), large.getMessage());
  }

  @Test
  void namesEveryMistakeOfAFile() throws IOException {
    file(
        "concepts-lamps.yaml",
        "- {concept: glass}\n" + concept("wick", "[]", "[]") + "- {concept: oil, sort: x}\n");
    hears(LexiconRemark.Weight.ERROR, "concepts-lamps.yaml, line 1", "variants");
    hears(LexiconRemark.Weight.ERROR, "concepts-lamps.yaml, line 3", "sort");
  }

  @Test
  void findsANameThatTwoConceptsClaim() throws IOException {
    file(
        "concepts-lamps.yaml",
        concept("wick", "[cotton cord]", "[]") + concept("fuse", "[cotton cords]", "[]"));
    hears(LexiconRemark.Weight.ERROR, "line 2", "cotton cord", "wick", "line 1");
  }

  @Test
  void findsARelationToNothing() throws IOException {
    file("concepts-lamps.yaml", concept("wick", "[]", "[lantern glow]"));
    hears(LexiconRemark.Weight.ERROR, "line 1", "lantern glow", "no concept");
  }

  @Test
  void findsNamesThatSayNothingNew() throws IOException {
    file("concepts-lamps.yaml", concept("wick", "[wicks]", "[]"));
    hears(LexiconRemark.Weight.NOTE, "\"wicks\" adds nothing");
  }

  @Test
  void saysWhatIsTakenFromTheProgram() throws IOException {
    file(
        "concepts-lamps.yaml",
        concept("osmosis", "[]", "[]") + concept("glow", "[photosynthetic]", "[]"));
    hears(LexiconRemark.Weight.NOTE, "\"osmosis\" takes the place");
    hears(LexiconRemark.Weight.NOTE, "takes the name \"photosynthetic\"");
  }

  @Test
  void findsVerbsThatNeverMatch() throws IOException {
    file(
        "task-verbs-lamps.yaml",
        "verbs:\n  - {kind: calculate, place: start, forms: [Cost, gauge, gauge]}\n");
    hears(LexiconRemark.Weight.NOTE, "\"Cost\" never matches");
    hears(LexiconRemark.Weight.NOTE, "\"gauge\" stands in");
  }

  @Test
  void findsAPatternThatNeverCounts() throws IOException {
    file(
        "cues-lamps.yaml",
        """
        cues:
          - type: evidence
            family: lamps
            patterns:
              - the lamp showed
              - the lamp showed
        """);
    hears(LexiconRemark.Weight.NOTE, "line 6", "never counts", "line 5");
  }

  @Test
  void saysWhenThereIsNothingToRead() throws IOException {
    hears(LexiconRemark.Weight.ERROR, "there is no file to read");
    file("words.yaml", "- a\n");
    hears(LexiconRemark.Weight.NOTE, "words.yaml", "not read");
    assertThrows(LexiconException.class, () -> LexiconCheck.of(folder.resolve("none")));
  }

  @Test
  void ownNamesAndVerbsGoBeforeThoseOfTheProgram() throws IOException {
    file("concepts-lamps.yaml", concept("glow", "[photosynthetic]", "[]"));
    file(
        "task-verbs-lamps.yaml",
        "verbs:\n  - {group: costing, kind: calculate, place: start, forms: [name]}\n");
    Lexicon lexicon = Lexicon.load(List.of(folder));
    assertEquals("glow", lexicon.concepts(new Words("photosynthetic")).get(0).concept());
    assertEquals(DemandKind.CALCULATE, lexicon.taskVerbs().verb("name").orElseThrow().kind());
    assertEquals(
        DemandKind.IDENTIFY, Lexicon.bundled().taskVerbs().verb("name").orElseThrow().kind());
    assertEquals(2, lexicon.sources().stream().filter(one -> one.name().contains("lamps")).count());
  }
}

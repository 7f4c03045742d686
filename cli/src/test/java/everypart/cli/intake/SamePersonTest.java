package everypart.cli.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which answers are taken for one person's when nobody says so. */
class SamePersonTest {
  private static Response file(String place) {
    String name = place.substring(place.lastIndexOf('/') + 1).replaceFirst("\\.\\w+$", "");
    return new Response(name, Optional.empty(), "text of " + place, Map.of(), Place.file(place));
  }

  private static Response row(String id, long line) {
    return new Response(
        id, Optional.empty(), "row " + line, Map.of(), Place.file("a.csv").atLine(line));
  }

  private static List<SamePerson.Several> among(Response... responses) {
    return SamePerson.among(List.of(responses), Optional.empty());
  }

  @ParameterizedTest
  @CsvSource({
    "Ada Lin.txt, lin_ada.docx, Ada Lin",
    "ada.txt, ada (1).txt, ada",
    "ada final.txt, Ada draft.txt, ada final",
    "Zo\u00eb.txt, zoe v2.txt, Zo\u00eb",
    "ada copy.txt, ada.odt, ada",
  })
  void namesThatDifferByAVersionAreOnePersons(String one, String other, String person) {
    List<SamePerson.Several> several = among(file(one), file("cy.txt"), file(other));
    assertEquals(1, several.size());
    assertEquals(person, several.get(0).person());
    assertEquals(List.of(0, 2), several.get(0).places());
  }

  @ParameterizedTest
  @CsvSource({
    "ada.txt, ada lin.txt",
    "ada 1.txt, ada 2.txt",
    "final.txt, draft.txt",
    "newt.txt, t.txt",
  })
  void otherNamesAreOtherPeoples(String one, String other) {
    assertEquals(List.of(), among(file(one), file(other)));
  }

  @Test
  void rowsOfOneIdAreOnePersonsAndVersionsInIdsCount() {
    assertEquals(1, among(row("s1", 2), row("s2", 3), row("S1", 4)).size());
    assertEquals(List.of(), among(row("s1", 2), row("s1 v2", 3)));
  }

  @Test
  void aFolderWithTwoDocumentsAmongFoldersWithOneIsOnePersons() {
    Response[] each = {
      file("c/ada/one.txt"),
      file("c/ada/two.txt"),
      file("c/ben/x.txt"),
      file("c/cy/y.txt"),
      file("c/di/z.txt")
    };
    List<SamePerson.Several> several = among(each);
    assertEquals(1, several.size());
    assertEquals("ada", several.get(0).person());
    assertEquals(List.of(), among(file("c/7a/ada.txt"), file("c/7a/ben.txt"), file("c/7b/cy.txt")));
  }

  @Test
  void answersToTwoQuestionsAreNotSeveral() {
    Response a = new Response("ada", Optional.of("p"), "x", Map.of(), Place.file("p/ada.txt"));
    Response b = new Response("ada", Optional.of("q"), "y", Map.of(), Place.file("q/ada.txt"));
    assertEquals(List.of(), among(a, b));
  }

  @Test
  void decisionsAreFollowedAndTold() {
    List<Arrival> all =
        List.of(file("ada.txt"), file("ben.txt"), file("ada (1).txt"), file("ben (1).txt"));
    List<SamePerson.Several> several = SamePerson.among(all, Optional.empty());
    List<InputProblem> notes = new ArrayList<>();
    List<Arrival> settled =
        SamePerson.settled(
            all,
            several,
            List.of(
                new SamePerson.Decision(SamePerson.What.KEEP, 1),
                new SamePerson.Decision(SamePerson.What.JOIN, 0)),
            notes::add);
    assertEquals(2, settled.size());
    Response ben = (Response) settled.get(0);
    Response ada = (Response) settled.get(1);
    assertEquals("ada: text of ada (1).txt", ada.id() + ": " + ada.text());
    assertEquals("ben: text of ben.txt\n\ntext of ben (1).txt", ben.id() + ": " + ben.text());
    assertEquals(
        List.of(
            "ada (1).txt: of several answers of ada, this one was kept and ada.txt was left out;"
                + " this was chosen when the class was read.",
            "ben.txt: the answers of ben were put together into one (ben.txt, ben (1).txt);"
                + " this was chosen when the class was read."),
        notes.stream().map(InputProblem::sentence).toList());
    assertThrows(
        IllegalArgumentException.class,
        () -> SamePerson.settled(all, several, List.of(), notes::add));
  }
}

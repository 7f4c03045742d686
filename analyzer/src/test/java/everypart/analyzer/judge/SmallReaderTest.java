package everypart.analyzer.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.lexicon.DemandKind;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

final class SmallReaderTest {
  private static final SmallReader READER = SmallReader.bundled();
  private static final String DEMAND =
      "explain: Explain why the lamps on the pier went dark. | A storm sent water over the pier.";

  private static InputStream open(String file) {
    return Objects.requireNonNull(SmallReader.class.getResourceAsStream(file));
  }

  static Stream<String> trained() throws IOException {
    try (InputStream in = open("small-reader.tsv")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> !line.startsWith("#"));
    }
  }

  private static double logOdds(String demand, DemandKind kind, String own, String rest) {
    return READER
        .opinion(READER.asked(demand, kind), READER.said(List.of(own), List.of(rest)))
        .logOdds();
  }

  @ParameterizedTest
  @MethodSource("trained")
  void saysWhatItSaidWhereItWasTrained(String row) {
    String[] cells = row.split("\t", -1);
    DemandKind kind = DemandKind.valueOf(cells[0].toUpperCase(Locale.ROOT));
    assertEquals(
        Double.parseDouble(cells[4]), logOdds(cells[1], kind, cells[2], cells[3]), 0.05, cells[2]);
  }

  @Test
  void aReasonCountsForMoreThanSoupAndThanTheQuestion() {
    double reason =
        logOdds(
            DEMAND, DemandKind.EXPLAIN, "Salt water got into the cable and cut the current.", "");
    assertTrue(reason > 0, reason + "");
    for (String no : List.of("We had soup for lunch.", "The lamps on the pier went dark.")) {
      double odds = logOdds(DEMAND, DemandKind.EXPLAIN, no, "");
      assertTrue(odds < reason - 1, no + " " + odds + " after " + reason);
    }
  }

  @Test
  void eachPieceHasEvidenceAlsoWhereThereIsNoRoomForIt() {
    List<String> own = List.of("word ".repeat(200), "and more");
    Reader.Opinion opinion =
        READER.opinion(
            READER.asked(DEMAND, DemandKind.EXPLAIN), READER.said(own, List.of("the rest", "")));
    assertEquals(4, opinion.evidence().size());
    assertTrue(opinion.evidence().get(1) < opinion.evidence().get(0), opinion.toString());
    assertTrue(Double.isFinite(opinion.logOdds()));
  }

  private static void assertSame(Reader.Opinion expected, Reader.Opinion opinion) {
    assertEquals(expected.logOdds(), opinion.logOdds(), 1e-4);
    assertEquals(expected.evidence().size(), opinion.evidence().size());
    for (int i = 0; i < expected.evidence().size(); i++) {
      assertEquals(expected.evidence().get(i), opinion.evidence().get(i), 1e-4, "piece " + i);
    }
  }

  @Test
  void demandsReadTogetherAreJudgedAsEachByItself() {
    List<String> demands = new ArrayList<>();
    List<DemandKind> kinds = new ArrayList<>();
    for (DemandKind kind : DemandKind.values()) {
      demands.add(kind.word() + ": " + DEMAND.substring(9) + " It was cold.".repeat(kinds.size()));
      kinds.add(kind);
    }
    SmallReader.Said said =
        READER.said(
            List.of("Salt water got into it,", "so the current", "was cut."), List.of("a b"));
    List<Reader.Opinion> together = READER.opinions(READER.asked(demands, kinds), said);
    assertEquals(demands.size(), together.size());
    for (int d = 0; d < demands.size(); d++) {
      assertSame(READER.opinion(READER.asked(demands.get(d), kinds.get(d)), said), together.get(d));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "0 1 2 3 4 5, ''",
    "'', 0 1 2 3 4 5",
    "2 3, 0 1 4 5",
    "1 4, 0 2 3 5",
    "3, ''",
    "5, 0"
  })
  void anAnswerCutOutOfAResponseIsReadAsByItself(String own, String rest) {
    List<String> pieces =
        List.of(
            "The storm was long.",
            "Salt water got into the cable",
            "and cut the current,",
            "",
            "as it always does",
            "when nobody looks. " + "And the pier was wet. ".repeat(60));
    SmallReader.Asked asked = READER.asked(DEMAND, DemandKind.EXPLAIN);
    SmallReader.Heard heard = READER.heard(pieces);
    for (int again = 0; again < 2; again++) {
      assertSame(
          READER.opinion(asked, READER.said(texts(pieces, own), texts(pieces, rest))),
          READER.opinion(asked, READER.said(heard, places(own), places(rest))));
    }
  }

  private static List<Integer> places(String numbers) {
    return numbers.isEmpty()
        ? List.of()
        : Arrays.stream(numbers.split(" ")).map(Integer::valueOf).toList();
  }

  private static List<String> texts(List<String> pieces, String numbers) {
    return places(numbers).stream().map(pieces::get).toList();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "It's 12.5 °C, I'd say! | it ' s ## . # ° c , i ' d say !",
        "H₂O and 10² in 2025_x | h₂o and ## # in #### x",
        "₂ ½ ÉCOLE | # ½ école"
      })
  void cutsTextAsInTraining(String text, String words) {
    assertEquals(Arrays.asList(words.split(" ")), SmallWords.in(text));
  }

  @Test
  void anythingIsReadWithoutError() {
    for (String text : List.of("", " ", "\uD83D", "😀😀", "\u0000", "_", "ا ب", "|", " | | | ")) {
      assertTrue(Double.isFinite(logOdds(DEMAND, DemandKind.JUSTIFY, text, text)), text);
      assertTrue(
          Double.isFinite(
              logOdds("justify: " + text + " | " + text, DemandKind.JUSTIFY, "It is", "")),
          text);
    }
  }

  @Test
  void theFileIsTheOneThatTheHeaderTellsOf() throws IOException, NoSuchAlgorithmException {
    try (DataInputStream in = new DataInputStream(open("small-reader.bin"))) {
      String header = SmallReader.text(in);
      byte[] sum = MessageDigest.getInstance("SHA-256").digest(in.readAllBytes());
      assertTrue(header.endsWith(HexFormat.of().formatHex(sum)), header);
    }
  }
}

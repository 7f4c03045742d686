package everypart.cli.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;

class PseudonymsTest {
  private static byte[] key(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  /** RFC 4231, section 4.3 (test case 2). */
  @Test
  void theKeyedHashIsThePublishedOne() {
    assertEquals(
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
        HexFormat.of().formatHex(Pseudonyms.hmac(key("Jefe"), "what do ya want for nothing?")));
  }

  @Test
  void aPseudonymDependsOnKeyAndId() {
    Pseudonyms one = new Pseudonyms(key("a key of some length"));
    assertEquals(one.of("oda"), new Pseudonyms(key("a key of some length")).of("oda"));
    assertNotEquals(one.of("oda"), one.of("ferrin"));
    assertNotEquals(one.of("oda"), new Pseudonyms(key("another key of length")).of("oda"));
    assertTrue(one.of("oda").matches("[a-z2-9]{12}"));
  }

  @Test
  void namesAreTakenOutAsWholeWords() {
    Redaction redaction = new Redaction(List.of("Rose", "Oda Fenn", ""));
    assertEquals(
        "[name] says the tide rose. [name]! Odafenn, Roses, [name]'s boat.",
        redaction.apply("ROSE says the tide rose. Oda\n Fenn! Odafenn, Roses, Rose's boat."));
    assertEquals("Rose", Redaction.NONE.apply("Rose"));
  }
}

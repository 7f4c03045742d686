package everypart.meaning;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import ai.djl.huggingface.tokenizers.Encoding;
import ai.djl.huggingface.tokenizers.HuggingFaceTokenizer;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * The word pieces, against Hugging Face's tokenizers library, which made the tokenizer file
 * (through its binding for Java, ai.djl.huggingface:tokenizers).
 */
class WordPiecesTest {
  private static final Path DEMO = Path.of("..", "..", "demo-data");

  private static final List<String> ODD =
      List.of(
          "",
          "   ",
          "Hello, world!",
          "can't won't b/c it's -- so...",
          "\u201cCurly\u201d \u2018quotes\u2019 \u2014 and dashes\u2013 too\u2026",
          "caf\u00e9 na\u00efve \u00c5ngstr\u00f6m \u00dcber STRASSE stra\u00dfe",
          "3.5 mg/L at 20\u00b0C, pH=7; 10^3 <5% ~2 $4 `x` |y| {z} [w] \\ _a_ #1 @b",
          "tab\tline\nbreak\r\nno-break\u00a0space\u3000wide",
          "zero\u200bwidth\ufeff and soft\u00adhyphen and \u0007 bell \ufffd",
          "\u4e2d\u6587\u5b57 mixed with words \u65e5\u672c",
          "\ud83d\ude00 smile \ud83e\uddea tube",
          "CO\u2082 m\u00b2 \u00bd \u2192 \u2191 \u2264 \u03b1 \u03b2 \u0394",
          "x".repeat(100),
          "y".repeat(101),
          "antidisestablishmentarianism pneumonoultramicroscopicsilicovolcanoconiosis",
          "word ".repeat(300),
          "unbelievable-".repeat(60));

  private static InputStream file() {
    return Objects.requireNonNull(
        WordPiecesTest.class.getResourceAsStream("/all-minilm-l6-v2-q-tokenizer.json"));
  }

  @Test
  void agreesWithTheReferenceLibrary() throws IOException {
    List<String> texts = new ArrayList<>(ODD);
    try (Stream<Path> files = Files.walk(DEMO)) {
      for (Path path : files.filter(Files::isRegularFile).sorted().toList()) {
        if (path.toString().matches(".*\\.(?:txt|md|csv|yaml)")) {
          Files.readString(path).lines().forEach(texts::add);
        }
      }
    }
    assertTrue(texts.size() > 60, () -> "only " + texts.size() + " texts");
    WordPieces pieces;
    try (InputStream in = file()) {
      pieces = WordPieces.read(in);
    }
    try (InputStream in = file();
        HuggingFaceTokenizer reference =
            HuggingFaceTokenizer.newInstance(in, Map.of("padding", "false"))) {
      for (String text : texts) {
        Encoding expected = reference.encode(text);
        assertArrayEquals(
            expected.getIds(),
            pieces.of(text),
            () -> "\"" + text + "\": " + Arrays.toString(expected.getTokens()));
      }
    }
  }

  @Test
  void refusesAFileWithoutVocabulary() {
    IOException refused =
        assertThrows(
            IOException.class,
            () -> WordPieces.read(new ByteArrayInputStream("{}".getBytes(StandardCharsets.UTF_8))));
    assertEquals(
        "the tokenizer file holds no vocabulary or no greatest length", refused.getMessage());
  }
}

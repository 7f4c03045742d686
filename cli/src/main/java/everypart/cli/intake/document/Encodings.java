package everypart.cli.intake.document;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/**
 * Tells in which encoding a text is, and reads it.
 *
 * <p>A byte order mark decides. Without one, bytes that are valid UTF-8 are UTF-8; a text of which
 * every other byte is zero is UTF-16; all else is Windows-1252, the encoding that older Windows
 * programs save in.
 */
final class Encodings {
  /**
   * A text that was read.
   *
   * @param text its characters, without the byte order mark
   * @param guessed whether the encoding was guessed, so that letters may be wrong
   */
  record Decoded(String text, boolean guessed) {}

  /**
   * A byte order mark and the encoding it stands for.
   *
   * @param signs its bytes, one a character
   */
  private record Mark(Charset charset, String signs) {
    boolean begins(byte[] text) {
      return Bytes.latin(text, signs.length()).equals(signs);
    }
  }

  private static final List<Mark> MARKS =
      List.of(
          new Mark(StandardCharsets.UTF_8, "\u00ef\u00bb\u00bf"),
          new Mark(StandardCharsets.UTF_16LE, "\u00ff\u00fe"),
          new Mark(StandardCharsets.UTF_16BE, "\u00fe\u00ff"));

  static final Charset WINDOWS_1252 = Charset.forName("windows-1252");

  /** How many bytes are looked at for zeros. */
  private static final int LOOK = 4096;

  private Encodings() {}

  /** Returns the text; empty when the bytes are no text in any of the encodings. */
  static Optional<Decoded> decode(byte[] bytes) {
    for (Mark mark : MARKS) {
      if (mark.begins(bytes)) {
        return strictly(mark.charset, bytes, mark.signs.length())
            .map(text -> new Decoded(text, false));
      }
    }
    Optional<Charset> wide = wide(bytes);
    if (wide.isPresent()) {
      return strictly(wide.get(), bytes, 0).map(text -> new Decoded(text, true));
    }
    Optional<String> utf8 = strictly(StandardCharsets.UTF_8, bytes, 0);
    if (utf8.isPresent()) {
      return utf8.map(text -> new Decoded(text, false));
    }
    return strictly(WINDOWS_1252, bytes, 0).map(text -> new Decoded(text, true));
  }

  /** Tells by its zeros whether a text without a mark is in UTF-16. */
  private static Optional<Charset> wide(byte[] bytes) {
    int look = Math.min(bytes.length, LOOK) & ~1;
    int high = 0;
    int low = 0;
    for (int i = 0; i < look; i += 2) {
      high += bytes[i] == 0 ? 1 : 0;
      low += bytes[i + 1] == 0 ? 1 : 0;
    }
    if (look < 4 || bytes.length % 2 != 0) {
      return Optional.empty();
    }
    // Text in Latin letters has a zero in nearly every pair, always on the same side.
    int most = look / 2 * 7 / 10;
    return low >= most && high == 0
        ? Optional.of(StandardCharsets.UTF_16LE)
        : high >= most && low == 0 ? Optional.of(StandardCharsets.UTF_16BE) : Optional.empty();
  }

  private static Optional<String> strictly(Charset charset, byte[] bytes, int from) {
    try {
      String text =
          charset
              .newDecoder()
              .onMalformedInput(CodingErrorAction.REPORT)
              .onUnmappableCharacter(CodingErrorAction.REPORT)
              .decode(ByteBuffer.wrap(bytes, from, bytes.length - from))
              .toString();
      return text.indexOf('\0') >= 0 ? Optional.empty() : Optional.of(text);
    } catch (CharacterCodingException e) {
      return Optional.empty();
    }
  }
}

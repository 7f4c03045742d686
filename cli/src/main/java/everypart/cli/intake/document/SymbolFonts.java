package everypart.cli.intake.document;

import java.util.Locale;
import java.util.Map;
import org.apache.pdfbox.pdmodel.font.encoding.Encoding;
import org.apache.pdfbox.pdmodel.font.encoding.GlyphList;
import org.apache.pdfbox.pdmodel.font.encoding.SymbolEncoding;

/**
 * What the signs of fonts with an order of their own stand for.
 *
 * <p>Word processors turn an arrow typed as {@code -->} into a sign of such a font, so a cause and
 * its effect would run into each other if it were dropped.
 */
final class SymbolFonts {
  /** Arrows and faces of the font Wingdings; from memory. */
  private static final Map<Integer, String> WINGDINGS =
      Map.ofEntries(
          Map.entry(0xE0, "\u2192"),
          Map.entry(0xDF, "\u2190"),
          Map.entry(0xE1, "\u2191"),
          Map.entry(0xE2, "\u2193"),
          Map.entry(0xE8, "\u2192"),
          Map.entry(0xE7, "\u2190"),
          Map.entry(0xF0, "\u21d2"),
          Map.entry(0xEF, "\u21d0"),
          Map.entry(0xF3, "\u21d4"),
          Map.entry(0x4A, "\u263a"),
          Map.entry(0x4C, "\u2639"),
          Map.entry(0xFC, "\u2713"),
          Map.entry(0xFB, "\u2717"));

  private SymbolFonts() {}

  /**
   * Returns the sign in Unicode, or a blank where it is not known.
   *
   * @param code the sign's number in the font, in hexadecimal; the fonts stand at F000 and at 0
   */
  static String unicode(String font, String code) {
    int number;
    try {
      number = Integer.parseInt(code, 16);
    } catch (NumberFormatException e) {
      return " ";
    }
    boolean own = number >= 0xF000 && number <= 0xF0FF;
    int place = own ? number - 0xF000 : number;
    return switch (font.toLowerCase(Locale.ROOT)) {
      case "wingdings" -> WINGDINGS.getOrDefault(place, " ");
      case "symbol" -> symbol(place);
      default -> own || !Character.isValidCodePoint(number) ? " " : Character.toString(number);
    };
  }

  private static String symbol(int place) {
    Encoding encoding = SymbolEncoding.INSTANCE;
    String sign = GlyphList.getAdobeGlyphList().toUnicode(encoding.getName(place));
    return sign == null ? " " : sign;
  }
}

package everypart.cli.intake.document;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.apache.fontbox.FontBoxFont;
import org.apache.fontbox.ttf.OpenTypeFont;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.pdmodel.font.CIDFontMapping;
import org.apache.pdfbox.pdmodel.font.FontMapper;
import org.apache.pdfbox.pdmodel.font.FontMappers;
import org.apache.pdfbox.pdmodel.font.FontMapping;
import org.apache.pdfbox.pdmodel.font.PDCIDSystemInfo;
import org.apache.pdfbox.pdmodel.font.PDFontDescriptor;
import org.jspecify.annotations.Nullable;

/**
 * Stands in for fonts that a PDF names and does not hold.
 *
 * <p>Nothing is drawn here, so any font will do. Left alone, the library would look through all
 * fonts of the machine, which takes seconds, and leave a list of them in the user's folder.
 */
final class PdfFonts implements FontMapper {
  private static final String FONT = "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";

  private static final class Once {
    static final TrueTypeFont FONT_READ = read();

    private static TrueTypeFont read() {
      try (InputStream in = FontMapper.class.getResourceAsStream(FONT)) {
        if (in == null) {
          throw new IllegalStateException("font " + FONT + " is not on the class path");
        }
        return new TTFParser().parseEmbedded(in);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    static {
      FontMappers.set(new PdfFonts());
    }

    static void load() {}
  }

  private PdfFonts() {}

  /** Makes the library ask here for fonts. */
  static void useOwn() {
    Once.load();
  }

  @Override
  public FontMapping<TrueTypeFont> getTrueTypeFont(
      String name, @Nullable PDFontDescriptor descriptor) {
    return new FontMapping<>(Once.FONT_READ, true);
  }

  @Override
  public FontMapping<FontBoxFont> getFontBoxFont(
      String name, @Nullable PDFontDescriptor descriptor) {
    return new FontMapping<>(Once.FONT_READ, true);
  }

  @Override
  public CIDFontMapping getCIDFont(
      String name, @Nullable PDFontDescriptor descriptor, @Nullable PDCIDSystemInfo system) {
    // Of the two fonts that may be given, PDFBox takes the second where the first is absent.
    @SuppressWarnings("NullAway")
    OpenTypeFont none = null;
    return new CIDFontMapping(none, Once.FONT_READ, true);
  }
}

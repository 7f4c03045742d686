package everypart.cli.run;

import java.io.FilterWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.util.Locale;

/**
 * Makes the control signs of a text visible before it reaches a terminal. Answers, questions and
 * names of files come from strangers, and a control sign in them could hide lines, move the cursor
 * or turn the direction of the text.
 */
public final class Shown {
  private static final char ESCAPE = '\u001b';

  private Shown() {}

  /** Returns a text in which no sign does anything but stand there. */
  public static String of(String text) {
    StringBuilder out = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); i++) {
      put(text.charAt(i), out);
    }
    return out.toString();
  }

  private static void put(char sign, StringBuilder out) {
    boolean control = Character.isISOControl(sign) && sign != '\t';
    // Signs that turn the direction of what follows them (Unicode Standard Annex 9).
    boolean turns =
        (sign >= '\u202a' && sign <= '\u202e') || (sign >= '\u2066' && sign <= '\u2069');
    if (control || turns || sign == '\u2028' || sign == '\u2029') {
      out.append(String.format(Locale.ROOT, "<%02X>", (int) sign));
    } else {
      out.append(sign);
    }
  }

  /**
   * Returns a writer of text for people, in which line ends and the program's own colours stay what
   * they are.
   *
   * @param colours whether the program colours its text
   */
  static PrintWriter writer(Writer out, boolean colours) {
    return new Lines(new Filter(out, colours));
  }

  /** Ends lines the same way on every system. */
  private static final class Lines extends PrintWriter {
    Lines(Writer out) {
      super(out);
    }

    @Override
    public void println() {
      write('\n');
    }
  }

  private static final class Filter extends FilterWriter {
    /** The codes that {@link everypart.cli.report.Colours} writes are digits with at most one ;. */
    private static final int LONGEST_CODE = 6;

    private final boolean colours;

    Filter(Writer out, boolean colours) {
      super(out);
      this.colours = colours;
    }

    @Override
    public void write(int sign) throws IOException {
      write(String.valueOf((char) sign), 0, 1);
    }

    @Override
    public void write(char[] signs, int from, int length) throws IOException {
      write(new String(signs, from, length), 0, length);
    }

    @Override
    public void write(String text, int from, int length) throws IOException {
      StringBuilder shown = new StringBuilder(length);
      for (int i = from; i < from + length; i++) {
        char sign = text.charAt(i);
        if (sign == '\n' || (sign == ESCAPE && colours && isColour(text, i))) {
          shown.append(sign);
        } else {
          put(sign, shown);
        }
      }
      out.write(shown.toString());
    }

    private static boolean isColour(String text, int at) {
      int i = at + 1;
      if (i >= text.length() || text.charAt(i) != '[') {
        return false;
      }
      for (i++; i < text.length() && i - at <= LONGEST_CODE; i++) {
        char sign = text.charAt(i);
        if (sign == 'm') {
          return true;
        }
        if (sign != ';' && (sign < '0' || sign > '9')) {
          return false;
        }
      }
      return false;
    }
  }
}

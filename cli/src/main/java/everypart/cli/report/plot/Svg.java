package everypart.cli.report.plot;

import java.util.Locale;

/** A picture being drawn; lengths are in CSS pixels. */
final class Svg {
  private final StringBuilder out = new StringBuilder();

  /**
   * Begins a picture.
   *
   * @param label what it shows, for those who do not see it
   */
  Svg(double width, double height, String label) {
    out.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"plot\" role=\"img\" aria-label=\"%s\" viewBox=\"0 0 %s %s\" width=\"%s\""
                + " height=\"%s\">%n",
            escape(label),
            number(width),
            number(height),
            number(width),
            number(height)));
  }

  void line(String style, double x1, double y1, double x2, double y2) {
    out.append(
        String.format(
            Locale.ROOT,
            "<line class=\"%s\" x1=\"%s\" y1=\"%s\" x2=\"%s\" y2=\"%s\"/>%n",
            style,
            number(x1),
            number(y1),
            number(x2),
            number(y2)));
  }

  void dot(String style, double x, double y, double radius) {
    out.append(
        String.format(
            Locale.ROOT,
            "<circle class=\"%s\" cx=\"%s\" cy=\"%s\" r=\"%s\"/>%n",
            style,
            number(x),
            number(y),
            number(radius)));
  }

  /**
   * Draws a box.
   *
   * @param strength how strongly it is filled, 0 to 1
   * @param title what it stands for
   */
  void box(
      String style,
      double x,
      double y,
      double width,
      double height,
      double strength,
      String title) {
    out.append(
        String.format(
            Locale.ROOT,
            "<rect class=\"%s\" x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\""
                + " fill-opacity=\"%s\"><title>%s</title></rect>%n",
            style,
            number(x),
            number(y),
            number(width),
            number(height),
            number(strength),
            escape(title)));
  }

  /**
   * Writes words.
   *
   * @param anchor start, middle or end
   */
  void text(String anchor, double x, double y, String words) {
    out.append(
        String.format(
            Locale.ROOT,
            "<text text-anchor=\"%s\" x=\"%s\" y=\"%s\">%s</text>%n",
            anchor,
            number(x),
            number(y),
            escape(words)));
  }

  /** Writes words that rise to the right, so that long names fit side by side. */
  void slanted(double x, double y, String words) {
    out.append(
        String.format(
            Locale.ROOT,
            "<text text-anchor=\"start\" x=\"%s\" y=\"%s\" transform=\"rotate(-40 %s %s)\">%s</text>%n",
            number(x),
            number(y),
            number(x),
            number(y),
            escape(words)));
  }

  String end() {
    return out.append("</svg>\n").toString().replace(System.lineSeparator(), "\n");
  }

  private static String number(double value) {
    String fixed = String.format(Locale.ROOT, "%.2f", value);
    return fixed.replaceFirst("(?<!0)0+$", "").replaceFirst("[.]$", "");
  }

  static String escape(String words) {
    return words
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }

  static String shortened(String words, int most) {
    return words.length() <= most ? words : words.substring(0, most - 1) + "\u2026";
  }
}

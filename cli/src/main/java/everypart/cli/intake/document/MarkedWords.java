package everypart.cli.intake.document;

/** The words of one paragraph as they are gathered, with what is bold in them. */
final class MarkedWords {
  private final StringBuilder text = new StringBuilder();
  private final boolean markBold;
  private final Meter meter;
  private int boldFrom = -1;

  /**
   * Starts a paragraph.
   *
   * @param markBold whether bold words are put between {@code **}
   * @param meter counts its characters
   */
  MarkedWords(boolean markBold, Meter meter) {
    this.markBold = markBold;
    this.meter = meter;
  }

  void add(String words, boolean bold) {
    if (words.isEmpty()) {
      return;
    }
    meter.add(Limit.TEXT, words.length());
    if (markBold && bold != boldFrom >= 0 && !words.isBlank()) {
      if (bold) {
        boldFrom = text.length();
      } else {
        closeBold();
      }
    }
    text.append(words);
  }

  boolean endsWithSpace() {
    return text.isEmpty() || Character.isWhitespace(text.charAt(text.length() - 1));
  }

  /** Puts the marks round the bold words, with the blanks at their ends left outside. */
  private void closeBold() {
    int from = boldFrom;
    boldFrom = -1;
    int to = text.length();
    while (from < to && Character.isWhitespace(text.charAt(from))) {
      from++;
    }
    while (to > from && Character.isWhitespace(text.charAt(to - 1))) {
      to--;
    }
    if (to > from) {
      // Only what is bold is moved, so that many bold words take no more time than few.
      String words = text.substring(from);
      text.setLength(from);
      text.append("**")
          .append(words, 0, to - from)
          .append("**")
          .append(words, to - from, words.length());
    }
  }

  @Override
  public String toString() {
    if (boldFrom >= 0) {
      closeBold();
    }
    return text.toString();
  }
}

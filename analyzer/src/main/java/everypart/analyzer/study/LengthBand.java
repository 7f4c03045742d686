package everypart.analyzer.study;

/** Bands of response length in words; each is about twice as wide as the one before. */
enum LengthBand {
  NONE(0, 0, "0"),
  TO_4(1, 1, "1-4"),
  TO_9(2, 5, "5-9"),
  TO_19(3, 10, "10-19"),
  TO_39(4, 20, "20-39"),
  TO_79(5, 40, "40-79"),
  TO_159(6, 80, "80-159"),
  LONGER(7, 160, "160+");

  private final int step;
  private final int least;
  private final String label;

  LengthBand(int step, int least, String label) {
    this.step = step;
    this.least = least;
    this.label = label;
  }

  /** Returns its running number, which the test for a trend goes by. */
  int step() {
    return step;
  }

  String label() {
    return label;
  }

  static LengthBand of(int words) {
    LengthBand found = NONE;
    for (LengthBand band : values()) {
      if (words >= band.least) {
        found = band;
      }
    }
    return found;
  }
}

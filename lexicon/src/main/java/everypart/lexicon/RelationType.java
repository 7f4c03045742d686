package everypart.lexicon;

/** How one concept stands to another. */
public enum RelationType {
  /** It is a kind of the other. */
  BROADER("broader", 1.0),
  /** It belongs to the other as a part, a place or a step. */
  PART_OF("part of", 1.0),
  /** It brings the other about, or helps to. */
  CAUSES("causes", 1.0),
  /** It is the other side of the other. */
  OPPOSITE("opposite", 1.5),
  /** Writers take it for the other. */
  CONFUSED_WITH("confused with", 2.0),
  /** It is regularly explained with the other; how, is not said. */
  RELATES("relates", 1.2);

  private final String key;
  private final double length;

  RelationType(String key, double length) {
    this.key = key;
    this.length = length;
  }

  /** Returns the key in the files. */
  public String key() {
    return key;
  }

  /** Returns how far apart two concepts are that stand so to each other (from memory, untuned). */
  double length() {
    return length;
  }
}

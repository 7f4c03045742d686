package everypart.analyzer.coverage;

import java.util.Collection;
import java.util.Locale;

/** Whether a demand, a part or a whole prompt is addressed. */
public enum Verdict {
  /** All that was asked for was found. */
  ADDRESSED,
  /** Some of what was asked for was found. */
  PARTLY,
  /** Nothing of it was found by the program. */
  MISSING,
  /** It cannot be read from text, or it may be left out and was. */
  UNCHECKED;

  /** Returns the word that the public formats use. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * Returns the verdict on a whole from those on its pieces: what is unchecked does not count, all
   * missing is missing, all addressed is addressed, anything else is partly.
   */
  public static Verdict over(Collection<Verdict> pieces) {
    var checked = pieces.stream().filter(verdict -> verdict != UNCHECKED).distinct().toList();
    if (checked.isEmpty()) {
      return UNCHECKED;
    }
    return checked.size() == 1 ? checked.get(0) : PARTLY;
  }
}

package everypart.lexicon;

/**
 * Something that the author of a lexicon file should know.
 *
 * @param weight what it means for the use of the file
 * @param sentence file, line, and what is the matter, as a clause without a full stop
 */
public record LexiconRemark(Weight weight, String sentence) {
  /** What a remark means for the use of the file. */
  public enum Weight {
    /** The lexicon cannot be used, or does not do what its author must have meant. */
    ERROR,
    /** The lexicon can be used; an entry has no effect, or takes the place of another. */
    NOTE
  }

  static LexiconRemark error(String sentence) {
    return new LexiconRemark(Weight.ERROR, sentence);
  }

  static LexiconRemark note(String file, int line, String problem) {
    return new LexiconRemark(Weight.NOTE, file + ", line " + line + ": " + problem);
  }
}

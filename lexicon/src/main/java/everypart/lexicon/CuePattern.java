package everypart.lexicon;

/**
 * One line of a cue list.
 *
 * @param type what it is a sign of
 * @param family the group of patterns it belongs to
 * @param pattern the pattern as written
 * @param cause where the cause stands
 * @param effect where the effect stands
 * @param front whether the cue with its clause may stand before the clause it belongs to ("Because
 *     it was cold, the pond froze")
 * @param file the file it comes from
 * @param line the line in that file
 */
record CuePattern(
    CueType type,
    String family,
    String pattern,
    Side cause,
    Side effect,
    boolean front,
    String file,
    int line) {}

package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;

/**
 * The sentence that came closest to a part which got no text.
 *
 * @param part the label of the part
 * @param sentence the sentence
 * @param why why it was not taken, in words
 */
public record Nearest(String part, Sentence sentence, String why) {}

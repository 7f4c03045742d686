/**
 * A response or prompt as sentences and tokens with their places in the original text.
 *
 * <p>{@link everypart.analyzer.text.TextReader} is the way in: it runs OpenNLP's sentence detector
 * and rule tokenizer, mends what student writing does to them, and hands out an immutable {@link
 * everypart.analyzer.text.Text}. Places are counted in {@code char}s inside the program; {@link
 * everypart.analyzer.text.CodePoints} turns them into the code points of the public formats.
 * OpenNLP's types stay in this room.
 */
@NullMarked
package everypart.analyzer.text;

import org.jspecify.annotations.NullMarked;

/**
 * The sentences that a user can meet: each room keeps its own in one file, {@code
 * words.properties}, so that they can be read in one go and translated. This room only reads them.
 */
@NullMarked
package everypart.analyzer.wording;

import org.jspecify.annotations.NullMarked;

/**
 * Which words of a response answer which part.
 *
 * <p>{@link everypart.analyzer.assign.PartAssigner} is the way in: labels that the writer put come
 * first, then an alignment of what has no label to the parts. It gives no verdicts.
 */
@NullMarked
package everypart.analyzer.assign;

import org.jspecify.annotations.NullMarked;

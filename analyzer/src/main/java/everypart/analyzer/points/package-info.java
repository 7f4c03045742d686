/**
 * Points that an author may want to list, proposed from a model answer.
 *
 * <p>{@link everypart.analyzer.points.PointProposer} lays a model answer over a prompt's demands
 * and returns the concepts and noun phrases it names, rarest first. A proposal is never used in
 * judging: the author takes it over into the prompt, or not.
 */
@NullMarked
package everypart.analyzer.points;

import org.jspecify.annotations.NullMarked;

/**
 * Tells for each demand how likely a response addresses it.
 *
 * <p>{@link everypart.analyzer.judge.Judge} is the seam: a prompt, a text and an assignment go in,
 * one {@link everypart.analyzer.judge.Finding} a demand comes out. {@link
 * everypart.analyzer.judge.LearnedJudge} is the judge of the program. Gates that need no model come
 * first; then named features of the demand and its text are weighed with learned weights, and where
 * a {@link everypart.analyzer.judge.Reader} is at hand its opinion is one more feature. The weights
 * lie in files beside these classes, made by {@code analyzer/training}; the words of the reasons
 * lie in {@code reasons.yaml}.
 */
@NullMarked
package everypart.analyzer.judge;

import org.jspecify.annotations.NullMarked;

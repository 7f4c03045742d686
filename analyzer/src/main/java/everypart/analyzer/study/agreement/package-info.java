/**
 * How far codes agree: coder with coder, and program with coder.
 *
 * <p>{@link everypart.analyzer.study.agreement.Agreement} is the way in. The coefficients are our
 * own, since no well-kept permissive Java library has them; each names its published source.
 */
@NullMarked
package everypart.analyzer.study.agreement;

import org.jspecify.annotations.NullMarked;

/**
 * How far codes agree: coder with coder, and program with coder.
 *
 * <p>CodedDemands is the way in: codes and verdicts go in, an AgreementReport comes out. The
 * coefficients are our own, since no well-kept permissive Java library has them; each names its
 * published source.
 */
@NullMarked
package everypart.analyzer.study.agreement;

import org.jspecify.annotations.NullMarked;

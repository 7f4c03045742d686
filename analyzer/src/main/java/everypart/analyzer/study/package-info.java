/**
 * Statistics over many responses: omission rates, intervals, comparisons, agreement.
 *
 * <p>It counts finished verdicts and renders nothing.
 */
@NullMarked
package everypart.analyzer.study;

import org.jspecify.annotations.NullMarked;

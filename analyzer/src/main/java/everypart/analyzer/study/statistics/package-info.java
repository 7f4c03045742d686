/**
 * Formulas over counts: intervals, tests and effect sizes, each with its published source.
 *
 * <p>Nothing here knows of demands or responses. Where Apache Commons Statistics has the routine it
 * is used; the rest is ours because no well-kept permissive library has it. A figure that cannot be
 * computed (an empty group, a table without one of its margins) is an empty {@code Optional}, never
 * a NaN.
 */
@NullMarked
package everypart.analyzer.study.statistics;

import org.jspecify.annotations.NullMarked;

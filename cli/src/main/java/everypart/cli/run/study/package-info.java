/**
 * How a study is run: planned, judged row by row, gone on with, put together from shares, repeated
 * from its log, and set beside people's codes.
 *
 * <p>{@link everypart.cli.run.study.StudyRun} is one run; the figures are worked out in {@code
 * analyzer.study} and rendered in {@code cli.report}.
 */
@NullMarked
package everypart.cli.run.study;

import org.jspecify.annotations.NullMarked;

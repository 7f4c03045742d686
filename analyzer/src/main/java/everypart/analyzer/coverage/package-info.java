/**
 * The pipeline and its verdicts.
 *
 * <p>{@link everypart.analyzer.coverage.CoverageAnalyzer} is the way in, and the one class that a
 * program which uses the analyzer as a library needs: a prompt and a response go in, a {@link
 * everypart.analyzer.coverage.Coverage} comes out. It is built once and shared by all threads.
 */
@NullMarked
package everypart.analyzer.coverage;

import org.jspecify.annotations.NullMarked;

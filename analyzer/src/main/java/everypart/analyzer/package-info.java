/**
 * Reads prompts and responses and judges coverage, as a plain library without file, console or
 * network work.
 *
 * <p>The rooms, in the order in which data flows through them: {@code text} and {@code prompt},
 * {@code assign}, {@code detect}, {@code coverage}, {@code study}.
 */
@NullMarked
package everypart.analyzer;

import org.jspecify.annotations.NullMarked;

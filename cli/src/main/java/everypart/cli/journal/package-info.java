/**
 * What a run has judged so far, kept on disk until the run is whole, so that a run that was stopped
 * can go on.
 *
 * <p>A {@link everypart.cli.journal.Journal} stands before the analyzer and remembers its answers.
 * It holds no response: places in the text, verdicts and reasons, under a checksum of the text.
 */
@NullMarked
package everypart.cli.journal;

import org.jspecify.annotations.NullMarked;

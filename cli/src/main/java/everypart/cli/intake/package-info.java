/**
 * From the files people have to prompts and responses.
 *
 * <p>Every reader gives back what it could read and, for each input it could not, an {@link
 * everypart.cli.intake.InputProblem}: one sentence that says what is wrong, where, and how to mend
 * it. One bad row or file never stops the rest. Nothing here judges a response.
 */
@NullMarked
package everypart.cli.intake;

import org.jspecify.annotations.NullMarked;

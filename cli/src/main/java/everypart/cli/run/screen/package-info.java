/**
 * How a class set is screened: {@link everypart.cli.run.screen.ScreenRun} is one run, {@code
 * ClassOutputs} the files it writes.
 */
@NullMarked
package everypart.cli.run.screen;

import org.jspecify.annotations.NullMarked;

/**
 * One thin picocli class a command: it takes the options, wires intake, analyzer and reports, and
 * returns an exit status. What runs a batch is in {@link everypart.cli.run}.
 *
 * <p>{@link everypart.cli.command.Program} is the way in. The only room that knows picocli.
 */
@NullMarked
package everypart.cli.command;

import org.jspecify.annotations.NullMarked;

/**
 * What a run is made of, whatever command began it: its streams and its end, the inputs and the
 * analyzer, the folder it writes to, and how a batch is judged in order and goes on after a stop.
 *
 * <p>A {@link everypart.cli.run.Workshop} holds what every run needs. {@link
 * everypart.cli.run.OrderedPipeline} does the work of a batch on all cores; {@link
 * everypart.cli.run.OutputFolder} keeps two runs apart and never writes over a file that no run
 * wrote; {@link everypart.cli.run.Unfinished} keeps what was judged until the run is whole. No
 * option is read here.
 */
@NullMarked
package everypart.cli.run;

import org.jspecify.annotations.NullMarked;

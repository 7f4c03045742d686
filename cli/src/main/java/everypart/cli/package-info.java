/** Wires streams, commands and exit status. */
@NullMarked
package everypart.cli;

import org.jspecify.annotations.NullMarked;

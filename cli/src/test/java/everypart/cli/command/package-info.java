/** Tests. */
@NullMarked
package everypart.cli.command;

import org.jspecify.annotations.NullMarked;

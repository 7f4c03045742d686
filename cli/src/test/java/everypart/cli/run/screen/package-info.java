/** Tests. */
@NullMarked
package everypart.cli.run.screen;

import org.jspecify.annotations.NullMarked;

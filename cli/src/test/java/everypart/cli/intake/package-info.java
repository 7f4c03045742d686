/** Tests. */
@NullMarked
package everypart.cli.intake;

import org.jspecify.annotations.NullMarked;

/** Tests. */
@NullMarked
package everypart.cli.open;

import org.jspecify.annotations.NullMarked;

/** Tests. */
@NullMarked
package everypart.cli;

import org.jspecify.annotations.NullMarked;

/** Tests. */
@NullMarked
package everypart.cli.run;

import org.jspecify.annotations.NullMarked;

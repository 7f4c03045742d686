/** Tests. */
@NullMarked
package everypart.cli.run.study;

import org.jspecify.annotations.NullMarked;

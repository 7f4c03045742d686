/** Tests. */
@NullMarked
package everypart.cli.report;

import org.jspecify.annotations.NullMarked;

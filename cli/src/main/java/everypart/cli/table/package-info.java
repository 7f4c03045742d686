/**
 * The seam to typed tables (Parquet), whose library lies in a jar of its own beside the program's:
 * {@link everypart.cli.table.TypedTables} is the service that the jar brings, {@link
 * everypart.cli.table.TablesJar} finds it.
 */
@NullMarked
package everypart.cli.table;

import org.jspecify.annotations.NullMarked;

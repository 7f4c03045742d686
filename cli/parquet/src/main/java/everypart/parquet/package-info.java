/**
 * Parquet files, in a jar of their own: {@link everypart.parquet.ParquetTables} is the service that
 * the program finds. Pages are unpacked in Java alone, so the jar runs on every system.
 */
@NullMarked
package everypart.parquet;

import org.jspecify.annotations.NullMarked;

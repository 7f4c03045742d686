/** Tests of Parquet files, alone and by both jars as a user runs them. */
@NullMarked
package everypart.parquet;

import org.jspecify.annotations.NullMarked;

/** The analyzer as a plain library inside Apache Spark: the example of {@code docs/spark.md}. */
@NullMarked
package everypart.spark;

import org.jspecify.annotations.NullMarked;

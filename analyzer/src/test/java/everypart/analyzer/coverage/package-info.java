@NullMarked
package everypart.analyzer.coverage;

import org.jspecify.annotations.NullMarked;

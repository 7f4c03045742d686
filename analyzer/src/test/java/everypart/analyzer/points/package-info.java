@NullMarked
package everypart.analyzer.points;

import org.jspecify.annotations.NullMarked;

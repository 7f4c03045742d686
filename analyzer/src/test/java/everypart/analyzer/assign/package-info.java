@NullMarked
package everypart.analyzer.assign;

import org.jspecify.annotations.NullMarked;

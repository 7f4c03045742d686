@NullMarked
package everypart.analyzer.judge;

import org.jspecify.annotations.NullMarked;

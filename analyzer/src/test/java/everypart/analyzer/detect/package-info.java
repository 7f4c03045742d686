@NullMarked
package everypart.analyzer.detect;

import org.jspecify.annotations.NullMarked;

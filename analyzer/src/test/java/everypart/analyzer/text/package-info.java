@NullMarked
package everypart.analyzer.text;

import org.jspecify.annotations.NullMarked;

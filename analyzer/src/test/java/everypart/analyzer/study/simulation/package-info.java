/** Made-up studies whose truth is known: do the intervals hold it as often as they say? */
@NullMarked
package everypart.analyzer.study.simulation;

import org.jspecify.annotations.NullMarked;

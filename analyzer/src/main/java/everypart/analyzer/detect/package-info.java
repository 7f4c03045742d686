/**
 * One small detector for each kind of demand.
 *
 * <p>A {@link everypart.analyzer.detect.Detector} looks at the text that was given to a part, and
 * at the rest of the response, and returns a {@link everypart.analyzer.detect.Finding}: what it
 * found, the words it relies on, and why, in plain words. {@link
 * everypart.analyzer.detect.Detectors} is the way in.
 */
@NullMarked
package everypart.analyzer.detect;

import org.jspecify.annotations.NullMarked;

/**
 * One renderer a format: each takes finished results and a writer.
 *
 * <p>Inside the program places are counted in {@code char}s; the renderers turn them into the code
 * points of the public formats. Nothing here judges a response.
 */
@NullMarked
package everypart.cli.report;

import org.jspecify.annotations.NullMarked;

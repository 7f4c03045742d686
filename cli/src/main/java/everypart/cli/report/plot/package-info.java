/**
 * Plots as SVG that stands inside a page: drawn once, no script, colours from the page's style.
 *
 * <p>Each plot says in words what it shows, and the report has the same figures as a table.
 */
@NullMarked
package everypart.cli.report.plot;

import org.jspecify.annotations.NullMarked;

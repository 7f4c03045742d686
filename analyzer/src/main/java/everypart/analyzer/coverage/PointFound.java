package everypart.analyzer.coverage;

import everypart.analyzer.prompt.Point;
import everypart.analyzer.text.Span;
import java.util.Optional;

/**
 * Whether a point that the author listed is mentioned.
 *
 * @param point the point
 * @param at the words that mention it; empty when none were found
 */
public record PointFound(Point point, Optional<Span> at) {}

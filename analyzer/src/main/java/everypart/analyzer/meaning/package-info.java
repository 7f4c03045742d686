/**
 * What the analyzer asks of a model of sentence meaning. It holds no model: one comes as a service,
 * from a jar of its own, when the user asks for it.
 */
@NullMarked
package everypart.analyzer.meaning;

import org.jspecify.annotations.NullMarked;

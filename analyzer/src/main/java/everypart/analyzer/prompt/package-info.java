/**
 * The prompt: its parts, and the demands that each part makes.
 *
 * <p>{@link everypart.analyzer.prompt.PromptReader} reads plain text and Markdown, {@link
 * everypart.analyzer.prompt.PromptYaml} the YAML form in which an author can say more. The room
 * never sees a response.
 */
@NullMarked
package everypart.analyzer.prompt;

import org.jspecify.annotations.NullMarked;

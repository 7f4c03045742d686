package everypart.analyzer.prompt;

import java.util.List;
import java.util.Optional;

/**
 * A prompt: a stimulus and the parts that ask about it.
 *
 * @param id names it in responses and results
 * @param title its title, when it has one
 * @param text the whole text that the spans of parts and demands count in
 * @param stimulus the passage, table or figure text that the parts refer to; empty when none
 * @param parts its parts, in reading order
 * @param remarks what the reader set aside or was unsure of, for the author's eye
 */
public record Prompt(
    String id,
    Optional<String> title,
    String text,
    String stimulus,
    List<Part> parts,
    List<Remark> remarks) {
  /** Copies the lists. */
  public Prompt {
    parts = List.copyOf(parts);
    remarks = List.copyOf(remarks);
  }
}

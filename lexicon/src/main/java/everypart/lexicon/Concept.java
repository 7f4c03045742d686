package everypart.lexicon;

import java.util.List;

/**
 * An idea of a subject that an answer may name.
 *
 * @param name the name, also its id
 * @param variants other names
 * @param relates names of other concepts with which it is regularly explained
 * @param field the field of study
 */
public record Concept(String name, List<String> variants, List<String> relates, String field) {
  /** Copies the lists. */
  public Concept {
    variants = List.copyOf(variants);
    relates = List.copyOf(relates);
  }
}

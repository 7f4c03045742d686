package everypart.lexicon;

import java.util.Set;

/**
 * What one place of a pattern accepts: any of some forms, any word of some shapes.
 *
 * @param forms words taken exactly
 * @param shapes shapes
 */
record WordCondition(Set<String> forms, Set<WordShape> shapes) {
  WordCondition {
    forms = Set.copyOf(forms);
    shapes = Set.copyOf(shapes);
  }

  /** Tells whether token {@code i} is accepted. */
  boolean at(WordSequence words, int i, WordLists lists) {
    if (forms.contains(words.form(i))) {
      return true;
    }
    for (WordShape shape : shapes) {
      if (shape.at(words, i, lists)) {
        return true;
      }
    }
    return false;
  }
}

package everypart.lexicon;

import java.util.Set;

/**
 * What one place of a pattern accepts: any of some forms, any inflection of some stems, any word of
 * some shapes.
 *
 * @param forms words taken exactly
 * @param stems stems of words taken in any inflection
 * @param shapes shapes
 */
record WordTest(Set<String> forms, Set<String> stems, Set<WordShape> shapes) {
  WordTest {
    forms = Set.copyOf(forms);
    stems = Set.copyOf(stems);
    shapes = Set.copyOf(shapes);
  }

  /** Tells whether token {@code i} is accepted. */
  boolean at(WordSequence words, int i, WordLists lists) {
    if (forms.contains(words.form(i)) || stems.contains(words.stem(i))) {
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

package everypart.lexicon;

import java.util.Locale;
import java.util.Set;

/** What a pattern may ask of a word besides its letters; written {@code @ing} in a pattern. */
enum WordShape {
  /** A letter stands first. */
  WORD {
    @Override
    boolean at(WordSequence words, int i, WordLists lists) {
      return Character.isLetter(words.form(i).charAt(0));
    }
  },
  /** Punctuation or another mark. */
  MARK {
    @Override
    boolean at(WordSequence words, int i, WordLists lists) {
      return isMark(words.form(i));
    }
  },
  /** A number in figures. */
  NUMBER {
    @Override
    boolean at(WordSequence words, int i, WordLists lists) {
      return Character.isDigit(words.form(i).charAt(0));
    }
  },
  /** A present participle. */
  ING {
    @Override
    boolean at(WordSequence words, int i, WordLists lists) {
      return lists.isParticiple(words.form(i));
    }
  },
  /** A past tense or past participle. */
  PAST {
    @Override
    boolean at(WordSequence words, int i, WordLists lists) {
      return lists.isPast(words.form(i));
    }
  },
  /** The base form of a verb, where a verb is the likelier reading of the word. */
  VERB {
    @Override
    boolean at(WordSequence words, int i, WordLists lists) {
      return lists.isBaseVerb(words.form(i));
    }
  },
  /** A past tense that stands for itself: no form of "be" or "have" is before it. */
  TENSE {
    @Override
    boolean at(WordSequence words, int i, WordLists lists) {
      return lists.isPast(words.form(i))
          && !(i > 0 && FORMS_BEFORE_PARTICIPLE.contains(words.form(i - 1)))
          && !(i > 1 && FORMS_BEFORE_PARTICIPLE.contains(words.form(i - 2)));
    }
  },
  /** An adjective. */
  ADJECTIVE {
    @Override
    boolean at(WordSequence words, int i, WordLists lists) {
      return lists.isAdjective(words.form(i));
    }
  },
  /** A comparative of one word. */
  COMPARATIVE {
    @Override
    boolean at(WordSequence words, int i, WordLists lists) {
      return lists.isComparative(words.form(i));
    }
  },
  /** The first word of a clause with a subject and a finite verb. */
  CLAUSE {
    @Override
    boolean at(WordSequence words, int i, WordLists lists) {
      return lists.isClauseFrom(words, i);
    }
  };

  private static final Set<String> FORMS_BEFORE_PARTICIPLE =
      Language.english().words("before_participle");

  private static final Set<Character> BREAKS = Set.of('.', ';', ':', '?', '!', '(', ')');

  /** Tells whether token {@code i} has the shape. */
  abstract boolean at(WordSequence words, int i, WordLists lists);

  /** Returns the word that patterns use, without the at sign. */
  String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Tells whether the token is a mark that ends a clause for certain. */
  static boolean isBreak(String form) {
    char first = form.charAt(0);
    return BREAKS.contains(first) || form.startsWith("--") || first == '\u2014';
  }

  /** Tells whether the token is a mark rather than a word or a number. */
  static boolean isMark(String form) {
    return !Character.isLetterOrDigit(form.charAt(0));
  }
}

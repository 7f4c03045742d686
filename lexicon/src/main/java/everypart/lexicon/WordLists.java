package everypart.lexicon;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.zip.GZIPInputStream;

/**
 * What is known of single English words: that they are words at all, how common they are, and which
 * can be a verb.
 *
 * <p>Read from {@code words.txt.gz}, a digest of the SCOWL word lists and of the sense counts in
 * WordNet 3.1; {@code lexicon/words/README.md} says how it is made.
 */
final class WordLists {
  private static final String RESOURCE = "words.txt.gz";

  /** A finite verb further away belongs to another clause. Chosen by eye. */
  private static final int MOST_WORDS_OF_SUBJECT = 9;

  /** The SCOWL size class of the lists that "most adults know", by its own description. */
  private static final int FAIRLY_COMMON = 50;

  /** Pronouns and other words that stand as the subject of a clause, or open one. */
  private static final Set<String> SUBJECTS = Language.english().words("subject");

  private static final Set<String> FINITE = Language.english().words("finite");

  /** Words that look like a participle in -ing and are none. */
  private static final Set<String> NO_PARTICIPLE = Language.english().words("no_participle");

  /**
   * What is known of one word.
   *
   * @param level the SCOWL size class of the smallest list that has it: 10 for the commonest words,
   *     then 20, 35, 40, 50, 55, 60
   * @param count how often the word's senses occur in WordNet's sense-tagged texts
   * @param verb whether the word may stand for the base form of a verb
   * @param past whether it is a past tense or past participle
   * @param third whether it is the third person singular of a verb
   * @param comparative whether it is the comparative of an adjective
   * @param adjective whether it is an adjective more often than anything else
   */
  record Word(
      int level,
      int count,
      boolean verb,
      boolean past,
      boolean third,
      boolean comparative,
      boolean adjective) {}

  /** The name of the table that the build makes of the lists. */
  static final String TABLE = "words.table";

  private static final int LEVELS = 0x7f;
  private static final int VERB = 1 << 7;
  private static final int PAST = 1 << 8;
  private static final int THIRD = 1 << 9;
  private static final int COMPARATIVE = 1 << 10;
  private static final int ADJECTIVE = 1 << 11;
  private static final int COUNT = 12;

  private final Table words;

  private WordLists(Table words) {
    this.words = words;
  }

  /** Holds the lists that come with the program, read on first need. */
  private static final class Bundled {
    static final WordLists LISTS =
        new WordLists(Table.bundled(TABLE).orElseGet(() -> Table.of(numbers())));
  }

  /** Returns the words, and what is known of each as one number: they are read from their list. */
  static Map<String, Integer> numbers() {
    try (InputStream in = WordLists.class.getResourceAsStream(RESOURCE)) {
      if (in == null) {
        throw new LexiconException(RESOURCE, 0, "the file is not on the class path");
      }
      return parse(
          new BufferedReader(
              new InputStreamReader(new GZIPInputStream(in), StandardCharsets.UTF_8)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns the lists that come with the program. */
  static WordLists bundled() {
    return Bundled.LISTS;
  }

  private static Map<String, Integer> parse(BufferedReader in) throws IOException {
    Map<String, Integer> words = new LinkedHashMap<>(200_000);
    String line;
    while ((line = in.readLine()) != null) {
      if (line.isEmpty() || line.charAt(0) == '#') {
        continue;
      }
      int first = line.indexOf('\t');
      int second = line.indexOf('\t', first + 1);
      int third = line.indexOf('\t', second + 1);
      String kinds = line.substring(third + 1);
      words.put(
          line.substring(0, first),
          Integer.parseInt(line.substring(first + 1, second))
              | (Integer.parseInt(line.substring(second + 1, third)) << COUNT)
              | (kinds.indexOf('v') >= 0 ? VERB : 0)
              | (kinds.indexOf('p') >= 0 ? PAST : 0)
              | (kinds.indexOf('s') >= 0 ? THIRD : 0)
              | (kinds.indexOf('c') >= 0 ? COMPARATIVE : 0)
              | (kinds.indexOf('a') >= 0 ? ADJECTIVE : 0));
    }
    return words;
  }

  private static Word word(int number) {
    return new Word(
        number & LEVELS,
        number >> COUNT,
        (number & VERB) != 0,
        (number & PAST) != 0,
        (number & THIRD) != 0,
        (number & COMPARATIVE) != 0,
        (number & ADJECTIVE) != 0);
  }

  /** Hands over each word with what is known of it. */
  void forEach(BiConsumer<String, Word> to) {
    words.forEach((form, number) -> to.accept(form, word(number)));
  }

  /** Returns what is known of a word. */
  Optional<Word> word(String form) {
    int number = words.get(form);
    return number == Table.ABSENT ? Optional.empty() : Optional.of(word(number));
  }

  private boolean is(String form, int kind) {
    int number = words.get(form);
    return number != Table.ABSENT && (number & kind) != 0;
  }

  /** Tells whether the form is an English word. */
  boolean isWord(String form) {
    return words.has(form);
  }

  /** Tells whether the form is an English word that most adults know. */
  boolean isFairlyCommon(String form) {
    int number = words.get(form);
    return number != Table.ABSENT && (number & LEVELS) <= FAIRLY_COMMON;
  }

  /** Tells whether the form can be the base form of a verb. */
  boolean isBaseVerb(String form) {
    return is(form, VERB);
  }

  /** Tells whether the form can be a past tense or past participle. */
  boolean isPast(String form) {
    return is(form, PAST);
  }

  /** Tells whether the form can be the third person singular of a verb. */
  boolean isThirdPerson(String form) {
    return is(form, THIRD);
  }

  /** Tells whether the form is a comparative, "more" and "less" included. */
  boolean isComparative(String form) {
    return is(form, COMPARATIVE);
  }

  /** Tells whether the form is an adjective more often than anything else. */
  boolean isAdjective(String form) {
    return is(form, ADJECTIVE);
  }

  /** Tells whether the form is a participle in -ing. */
  boolean isParticiple(String form) {
    return form.length() > 4 && form.endsWith("ing") && !NO_PARTICIPLE.contains(form);
  }

  /**
   * Tells whether a clause with a subject and a finite verb begins at a token: a word that stands
   * as a subject, or a finite verb within the next words before any mark.
   */
  boolean isClauseFrom(WordSequence sequence, int from) {
    if (from >= sequence.size()) {
      return false;
    }
    if (SUBJECTS.contains(sequence.form(from))) {
      return true;
    }
    int last = Math.min(sequence.size(), from + MOST_WORDS_OF_SUBJECT);
    for (int i = from; i < last; i++) {
      String form = sequence.form(i);
      if (WordShape.isMark(form) || (i > from && form.equals("to"))) {
        return false;
      }
      if (i > from && (FINITE.contains(form) || isPast(form) || isThirdPerson(form))) {
        return true;
      }
    }
    return false;
  }
}

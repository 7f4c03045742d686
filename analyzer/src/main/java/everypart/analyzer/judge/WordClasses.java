package everypart.analyzer.judge;

import com.fasterxml.jackson.databind.JsonNode;
import everypart.analyzer.text.Token;
import everypart.lexicon.KeptYaml;
import everypart.lexicon.Language;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.UnaryOperator;

/** The classes of words that decide how much a clause says, read once from {@code words.yaml}. */
final class WordClasses {
  private static final String FILE = "words.yaml";

  /** A class whose words match as written. */
  enum Form {
    FUNCTION,
    BECAUSE,
    RESULT,
    CONDITION,
    CONTRAST,
    YES,
    NO,
    NEGATION,
    PRONOUN,
    AGENT,
    MODAL,
    FUTURE,
    BE,
    AUXILIARY,
    NORM,
    UNSURE,
    EVIDENCE,
    DESIGN_CHANGED,
    DESIGN_MEASURED,
    DESIGN_CONTROL,
    DESIGN_CONSTANT,
    DESIGN_REPEATS,
    DESIGN_HYPOTHESIS,
    JUDGE,
    COMPARE,
    ALL,
    ORDINAL,
    GOES,
    SWITCHES,
    HOLDS,
    METHOD,
    POLITE
  }

  /** A class whose words match with their inflections. */
  enum Stem {
    UNIT,
    EMPTY,
    PURE,
    CHANGE,
    UP,
    DOWN,
    LEVEL,
    POLAR
  }

  private static final int FORMS = Form.values().length;

  private final Map<String, Long> formClasses = new HashMap<>();
  private final Map<String, Long> stemClasses = new HashMap<>();

  /** Shorter words are too near to others for a slip to be forgiven. Chosen by eye. */
  private static final int LEAST_FUZZY = 7;

  private static final int MOST_REMEMBERED = 100_000;

  private final Vocabulary emptyForms;
  private final Map<String, Boolean> fuzzy = new ConcurrentHashMap<>();
  private final Map<String, String> families = new HashMap<>();

  /**
   * Reads the classes.
   *
   * @param stemmer gives the stem of a word in lower case
   */
  WordClasses(UnaryOperator<String> stemmer) {
    JsonNode root = KeptYaml.read(WordClasses.class, FILE);
    for (Form form : Form.values()) {
      for (String word : words(root.path("forms"), form.name(), UnaryOperator.identity())) {
        formClasses.merge(word, bit(form), (one, other) -> one | other);
      }
    }
    for (Stem stem : Stem.values()) {
      for (String word : words(root.path("stems"), stem.name(), stemmer)) {
        stemClasses.merge(word, bit(stem), (one, other) -> one | other);
      }
    }
    Set<String> longForms = new HashSet<>();
    for (Stem stem : Set.of(Stem.EMPTY, Stem.CHANGE)) {
      for (String word : words(root.path("stems"), stem.name(), UnaryOperator.identity())) {
        if (word.length() >= LEAST_FUZZY) {
          longForms.add(word);
        }
      }
    }
    emptyForms = new Vocabulary(longForms);
    for (JsonNode line : root.path("families")) {
      String[] members = line.asText().strip().split("\\s+");
      String head = stemmer.apply(members[0]);
      for (String member : members) {
        families.putIfAbsent(stemmer.apply(member), head);
      }
    }
  }

  private static Set<String> words(JsonNode parent, String name, UnaryOperator<String> change) {
    JsonNode list = parent.path(name.toLowerCase(Locale.ROOT));
    if (!list.isTextual()) {
      throw new IllegalStateException(FILE + " lacks the class \"" + name + "\"");
    }
    Set<String> words = new HashSet<>();
    List<String> written = List.of(list.asText().strip().split("\\s+"));
    for (String word : Language.english().expand(written)) {
      words.add(change.apply(word));
    }
    return words;
  }

  /** Tells whether a token belongs to a class. */
  boolean is(Token token, Form form) {
    return (formClasses.getOrDefault(token.form(), 0L) & bit(form)) != 0;
  }

  /** Tells whether a token belongs to a class. */
  boolean is(Token token, Stem stem) {
    return (stemClasses.getOrDefault(token.stem(), 0L) & bit(stem)) != 0;
  }

  /** Returns the classes that some tokens belong to, a bit each. */
  long classes(List<Token> tokens) {
    long classes = 0;
    for (Token token : tokens) {
      classes |= formClasses.getOrDefault(token.form(), 0L);
      classes |= stemClasses.getOrDefault(token.stem(), 0L);
    }
    return classes;
  }

  /** Returns the bit of a class. */
  @SuppressWarnings("EnumOrdinal") // bits are kept in memory only
  static long bit(Form form) {
    return 1L << form.ordinal();
  }

  /** Returns the bit of a class. */
  @SuppressWarnings("EnumOrdinal") // bits are kept in memory only
  static long bit(Stem stem) {
    return 1L << (FORMS + stem.ordinal());
  }

  /** Tells whether a token is a word that says something by itself. */
  boolean isContent(Token token) {
    return token.isWord()
        && (token.form().length() > 1 || token.form().charAt(0) > 'z')
        && !is(token, Form.FUNCTION)
        && !is(token, Form.POLITE);
  }

  /** Tells whether a word is a misspelling of one that says nothing: "evrything". */
  boolean isMisspelledEmpty(Token token) {
    if (token.form().length() < LEAST_FUZZY) {
      return false;
    }
    Boolean known = fuzzy.get(token.form());
    if (known != null) {
      return known;
    }
    boolean misspelled = emptyForms.has(token.form());
    if (fuzzy.size() < MOST_REMEMBERED) {
      fuzzy.put(token.form(), misspelled);
    }
    return misspelled;
  }

  /** Returns the key under which a token's stem is compared: one for a family of words. */
  String key(Token token) {
    return families.getOrDefault(token.stem(), token.stem());
  }
}

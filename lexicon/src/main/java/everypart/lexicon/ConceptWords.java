package everypart.lexicon;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;

/**
 * The words that names of concepts are made of, numbered so that all forms of one word share a
 * number.
 *
 * <p>A stemmer would also give "organism" the number of "organ", "important" that of "import" and
 * "later" that of "lateral". So forms are made from the words of the names instead: inflections by
 * the rules of spelling, classical plurals, British spellings, and a short list of derivations
 * (between a verb and its noun in -ion, and from a noun to its adjective), which count only where
 * the result is an English word with the same stem. {@code derived-forms.txt} among the tests lists
 * every English word that is brought in by derivation.
 */
final class ConceptWords {
  /** The number of a word that is in no name. */
  static final int UNKNOWN = Table.ABSENT;

  private static final int MOST_REMEMBERED = 200_000;
  private static final int SHORTEST_BASE = 3;
  private static final int SHORTEST_NOUN = 7;
  private static final int SHORTEST_ADJECTIVE = 5;

  private static final Pattern VERB_ENDING = Pattern.compile("(?:ize|ise|ify|lyse|lyze)$");

  /** American and British endings or letters, from common practice. */
  private static final String[][] SPELLINGS = {
    {"ization", "isation"},
    {"ize", "ise"},
    {"yze", "yse"},
    {"izing", "ising"},
    {"ized", "ised"},
    {"or", "our"},
    {"er", "re"},
    {"emia", "aemia"},
    {"hem", "haem"},
    {"edema", "oedema"},
    {"estr", "oestr"},
    {"esoph", "oesoph"},
    {"fet", "foet"},
    {"sulf", "sulph"},
    {"pale", "palae"},
    {"ense", "ence"},
    {"og", "ogue"},
    {"aluminum", "aluminium"},
    {"mold", "mould"},
    {"neuron", "neurone"},
    {"gray", "grey"},
    {"program", "programme"},
    {"vapor", "vapour"},
    {"liter", "litre"},
    {"meter", "metre"},
    {"diarrhea", "diarrhoea"},
    {"leukemia", "leukaemia"},
    {"color", "colour"},
    {"behavior", "behaviour"},
    {"labor", "labour"},
    {"tumor", "tumour"},
    {"fiber", "fibre"},
    {"center", "centre"},
    {"odor", "odour"},
    {"signaling", "signalling"},
    {"modeling", "modelling"},
    {"labeled", "labelled"},
    {"aging", "ageing"},
  };

  /** Words that share a stem with a word of a name, and whose sense is another. */
  private static final Set<String> NO_DERIVATION =
      Set.of(
          ("accommodate animate appreciate articulate attribute automatically basically confident"
                  + " converse deduct determine discuss economical economically effuse emote enteral"
                  + " equate erect evident excise expire important incident inspirational inspire"
                  + " literal matres musical musically obligation periodical periodically posit"
                  + " predate present re recess referent resident sensational urinal")
              .split(" "));

  private final WordLists lists;
  private final WordForms porter = new WordForms();
  private final UnaryOperator<String> spelling;
  private final Map<String, Integer> numbers = new HashMap<>();
  private final Table table;
  private final Map<String, Integer> remembered = new ConcurrentHashMap<>();
  private final Set<String> derived = new TreeSet<>();
  private int count;

  /**
   * Numbers the words of some names.
   *
   * @param names the names
   * @param spelling gives the word that a form in lower case stands for
   */
  ConceptWords(Collection<String> names, WordLists lists, UnaryOperator<String> spelling) {
    this.lists = lists;
    this.spelling = spelling;
    Set<String> words = new TreeSet<>();
    names.forEach(name -> words.addAll(NameSplitter.split(name)));
    Map<Integer, List<String>> byNumber = new HashMap<>();
    List<String> shortestFirst = new ArrayList<>(words);
    shortestFirst.sort(
        (a, b) -> a.length() != b.length() ? a.length() - b.length() : a.compareTo(b));
    Map<String, Integer> inflections = new HashMap<>();
    for (String word : shortestFirst) {
      Integer known = inflections.get(word);
      int number = known == null ? count++ : known;
      numbers.put(word, number);
      byNumber.computeIfAbsent(number, key -> new ArrayList<>()).add(word);
      for (String form : inflectionsOf(word)) {
        inflections.putIfAbsent(form, number);
      }
    }
    inflections.forEach(numbers::putIfAbsent);
    for (String word : shortestFirst) {
      int number = number(numbers, word);
      for (String british : respelled(word)) {
        add(british, number, word);
        inflectionsOf(british).forEach(form -> add(form, number, word));
      }
    }
    for (String word : shortestFirst) {
      int number = number(numbers, word);
      derivedFrom(word).forEach(form -> add(form, number, word));
    }
    table = Table.of(numbers);
  }

  /**
   * Takes words that were numbered before.
   *
   * @param table what {@link #numbers} returned, as a table
   */
  ConceptWords(Table table, WordLists lists, UnaryOperator<String> spelling) {
    this.table = table;
    this.lists = lists;
    this.spelling = spelling;
  }

  /** Returns the number of each form. */
  Map<String, Integer> numbers() {
    return new TreeMap<>(numbers);
  }

  private void add(String form, int number, String word) {
    if (!NO_DERIVATION.contains(form)
        && numbers.putIfAbsent(form, number) == null
        && lists.isWord(form)) {
      derived.add(form + "\t" + word);
    }
  }

  private static int number(Map<String, Integer> numbers, String word) {
    return numbers.getOrDefault(word, UNKNOWN);
  }

  /**
   * Returns every English word that counts as a form by derivation, with the word it is a form of.
   */
  Set<String> derived() {
    return derived;
  }

  /** Returns the number of a word of a text, or {@link #UNKNOWN}. */
  int of(String form) {
    int known = table.get(form);
    if (known != UNKNOWN) {
      return known;
    }
    Integer before = remembered.get(form);
    if (before != null) {
      return before;
    }
    String plain = form.endsWith("'s") ? form.substring(0, form.length() - 2) : form;
    int number = table.get(plain);
    if (number == UNKNOWN) {
      number = table.get(spelling.apply(plain));
    }
    if (remembered.size() < MOST_REMEMBERED) {
      remembered.put(form, number);
    }
    return number;
  }

  /** Returns the numbers of the words of a name. */
  int[] ofName(String name) {
    return NameSplitter.split(name).stream().mapToInt(this::of).toArray();
  }

  private Set<String> inflectionsOf(String word) {
    Set<String> forms = new LinkedHashSet<>();
    if (word.length() < SHORTEST_BASE || !word.chars().allMatch(c -> c >= 'a' && c <= 'z')) {
      return forms;
    }
    boolean known = lists.isWord(word);
    boolean verb = known ? lists.isBaseVerb(word) : VERB_ENDING.matcher(word).find();
    String doubled = word + word.charAt(word.length() - 1);
    boolean doubles = lists.isWord(doubled + "ed") || lists.isWord(doubled + "ing");
    for (String form : Inflections.of(word)) {
      boolean plural = form.endsWith("s") && !form.equals(word);
      boolean undoubled = form.equals(word + "ed") || form.equals(word + "ing");
      if (plural || (verb && !(doubles && undoubled && !lists.isWord(form)))) {
        if (!(doubles && undoubled && isFormOfAnother(form))) {
          forms.add(form);
        }
      }
    }
    classical(word, forms);
    forms.remove(word);
    return forms;
  }

  /** Tells whether "planed", say, belongs to "plane", not to "plan". */
  private boolean isFormOfAnother(String form) {
    String base =
        form.endsWith("ed")
            ? form.substring(0, form.length() - 1)
            : form.substring(0, form.length() - 3) + "e";
    return lists.isWord(base);
  }

  private static void classical(String word, Set<String> forms) {
    String[][] endings = {
      {"us", "i"},
      {"um", "a"},
      {"is", "es"},
      {"ma", "mata"},
      {"nx", "nges"},
      {"ex", "ices"},
      {"ix", "ices"},
      {"ion", "ia"},
      {"a", "ae"},
    };
    for (String[] ending : endings) {
      if (word.length() > ending[0].length() + 3 && word.endsWith(ending[0])) {
        forms.add(word.substring(0, word.length() - ending[0].length()) + ending[1]);
      }
    }
  }

  private static List<String> respelled(String word) {
    List<String> forms = new ArrayList<>(2);
    for (String[] pair : SPELLINGS) {
      for (int way = 0; way < 2; way++) {
        String from = pair[way];
        String to = pair[1 - way];
        boolean start =
            word.startsWith(from) && word.length() > from.length() + 2 && from.length() > 2;
        if (word.equals(from)) {
          forms.add(to);
        } else if (word.endsWith(from) && word.length() > from.length() + 2) {
          forms.add(word.substring(0, word.length() - from.length()) + to);
        } else if (start) {
          forms.add(to + word.substring(from.length()));
        }
      }
    }
    return forms;
  }

  private List<String> derivedFrom(String word) {
    List<String> forms = new ArrayList<>(4);
    int length = word.length();
    if (length >= SHORTEST_NOUN && word.endsWith("ion")) {
      String cut = word.substring(0, length - 3);
      verb(word, cut, forms);
      verb(word, cut + "e", forms);
      if (word.endsWith("ation")) {
        verb(word, word.substring(0, length - 5), forms);
        verb(word, word.substring(0, length - 5) + "e", forms);
      }
      other(word, word + "al", forms);
    } else if (length >= SHORTEST_ADJECTIVE) {
      String cut = word.endsWith("e") ? word.substring(0, length - 1) : word;
      if (lists.isBaseVerb(word)) {
        other(word, cut + "ion", forms);
        other(word, cut + "ation", forms);
      }
      other(word, cut + "al", forms);
      if (word.endsWith("ic")) {
        other(word, word + "ally", forms);
      } else if (word.endsWith("ogy") || word.endsWith("phy")) {
        other(word, word.substring(0, length - 1) + "ical", forms);
        other(word, word.substring(0, length - 1) + "ically", forms);
      } else if (word.endsWith("ance") || word.endsWith("ence")) {
        other(word, word.substring(0, length - 2) + "t", forms);
      }
    }
    return forms;
  }

  private void verb(String noun, String verb, List<String> forms) {
    if (lists.isBaseVerb(verb)
        && !NO_DERIVATION.contains(verb)
        && !numbers.containsKey(verb)
        && porter.stem(verb).equals(porter.stem(noun))) {
      forms.add(verb);
      forms.addAll(inflectionsOf(verb));
    }
  }

  private void other(String word, String form, List<String> forms) {
    if (lists.isWord(form)
        && !NO_DERIVATION.contains(form)
        && porter.stem(form).equals(porter.stem(word))) {
      forms.add(form);
    }
  }
}

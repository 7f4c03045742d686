package everypart.lexicon;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The closed classes of a language's words, by name: auxiliaries, pronouns, number words and so on,
 * read from {@code english.yaml}. Code asks for a list by its name and holds no words itself, so
 * that another language would need another file and no other code.
 *
 * <p>A list may take in another: {@code +modal} in a list stands for the words of the list {@code
 * modal}. The files of task verbs and of the judge's words take lists in the same way, see {@link
 * #expand}.
 */
public final class Language {
  static final String BUNDLED = "english.yaml";
  private static final char TAKES_IN = '+';

  private final String file;
  private final Map<String, String> written = new HashMap<>();
  private final Map<String, List<String>> lists = new HashMap<>();

  private static final class English {
    static final Language WORDS = new Language(BUNDLED, KeptYaml.read(Language.class, BUNDLED));
  }

  /**
   * Reads a language.
   *
   * @param file its name, for complaints
   * @throws IllegalArgumentException when a list takes in one that is not there, or itself
   */
  Language(String file, JsonNode root) {
    this.file = file;
    root.path("words").properties().forEach(list -> add(list.getKey(), list.getValue()));
    if (written.isEmpty()) {
      throw new IllegalArgumentException(file + " has no lists under \"words\"");
    }
    written.keySet().forEach(name -> list(name, Set.of()));
  }

  private void add(String name, JsonNode words) {
    if (!words.isTextual()) {
      throw new IllegalArgumentException(file + ": the list \"" + name + "\" is one text of words");
    }
    written.put(name, words.asText());
  }

  /** Returns English. */
  public static Language english() {
    return English.WORDS;
  }

  /**
   * Returns a list in the order of the file, each word once.
   *
   * @throws IllegalArgumentException when there is no such list
   */
  public List<String> list(String name) {
    return list(name, Set.of());
  }

  /**
   * Returns the words of a list.
   *
   * @throws IllegalArgumentException when there is no such list
   */
  public Set<String> words(String name) {
    return Set.copyOf(list(name));
  }

  /**
   * Returns a list as the alternatives of a regular expression, in the order of the file; {@code
   * next_one} in the list stands for the two words "next one".
   *
   * @throws IllegalArgumentException when there is no such list
   */
  public String either(String name) {
    return String.join("|", list(name)).replace('_', ' ');
  }

  /**
   * Returns words with the lists that they take in: of "going" and "+modal" the word and all
   * modals, each word once, in order.
   *
   * @throws IllegalArgumentException when there is no such list
   */
  public List<String> expand(Iterable<String> words) {
    return expand(words, Set.of());
  }

  private List<String> list(String name, Set<String> within) {
    List<String> known = lists.get(name);
    if (known != null) {
      return known;
    }
    String text = written.get(name);
    if (text == null || within.contains(name)) {
      throw new IllegalArgumentException(
          file + (text == null ? " has no list \"" : ": a list takes in itself: \"") + name + "\"");
    }
    Set<String> outer = new LinkedHashSet<>(within);
    outer.add(name);
    List<String> words = expand(List.of(text.strip().split("\\s+")), outer);
    lists.put(name, words);
    return words;
  }

  private List<String> expand(Iterable<String> words, Set<String> within) {
    Set<String> all = new LinkedHashSet<>();
    for (String word : words) {
      if (word.length() > 1 && word.charAt(0) == TAKES_IN) {
        all.addAll(list(word.substring(1), within));
      } else {
        all.add(word);
      }
    }
    return List.copyOf(new ArrayList<>(all));
  }
}

package everypart.lexicon;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Reads concept lists; the format is told at the top of each. A file is a list of entries, or a
 * subject and a unit with such a list under {@code concepts}.
 */
final class ConceptFile {
  private static final String CONCEPTS = "concepts";
  private static final Set<String> FILE_KEYS = Set.of("subject", "unit", CONCEPTS);
  private static final Set<String> KEYS =
      Stream.concat(
              Stream.of("concept", "variants", "everyday", "never", "field"),
              Stream.of(RelationType.values()).map(RelationType::key))
          .collect(Collectors.toUnmodifiableSet());

  /**
   * An entry and where it stands.
   *
   * @param concept the concept
   * @param file the file
   * @param line the line
   */
  record Entry(Concept concept, String file, int line) {}

  private ConceptFile() {}

  /**
   * Reads one file.
   *
   * @throws LexiconException at the first mistake
   */
  static List<Entry> read(LexiconFile file) {
    return read(
        file,
        problem -> {
          throw problem;
        });
  }

  /**
   * Reads one file, leaving out the entries that have a mistake.
   *
   * @param problems is told of each mistake
   */
  static List<Entry> read(LexiconFile file, Consumer<LexiconException> problems) {
    try {
      return entries(YamlValue.read(file), problems);
    } catch (LexiconException e) {
      problems.accept(e);
      return List.of();
    }
  }

  /** Takes what was read of a file. */
  static List<Entry> read(YamlValue root) {
    return entries(
        root,
        problem -> {
          throw problem;
        });
  }

  private static List<Entry> entries(YamlValue root, Consumer<LexiconException> problems) {
    List<Entry> entries = new ArrayList<>();
    try {
      String subject = "";
      String unit = "";
      YamlValue list = root;
      if (root.isMap()) {
        Map<String, YamlValue> keys = root.map(FILE_KEYS);
        subject = keys.containsKey("subject") ? root.need(keys, "subject").text() : "";
        unit = keys.containsKey("unit") ? root.need(keys, "unit").text() : "";
        list = root.need(keys, CONCEPTS);
      }
      for (YamlValue value : list.list()) {
        try {
          entries.add(new Entry(concept(value, subject, unit), value.file(), value.line()));
        } catch (LexiconException e) {
          problems.accept(e);
        }
      }
    } catch (LexiconException e) {
      problems.accept(e);
    }
    return entries;
  }

  private static Concept concept(YamlValue value, String subject, String unit) {
    Map<String, YamlValue> keys = value.map(KEYS);
    Map<RelationType, List<String>> relations = new EnumMap<>(RelationType.class);
    for (RelationType type : RelationType.values()) {
      YamlValue names = keys.get(type.key());
      if (names != null) {
        relations.put(type, texts(names));
      }
    }
    String name = value.need(keys, "concept").text();
    List<String> variants = texts(value.need(keys, "variants"));
    List<String> everyday =
        keys.containsKey("everyday") ? texts(value.need(keys, "everyday")) : List.of();
    for (String word : everyday) {
      if (!word.equals(name) && !variants.contains(word)) {
        throw value
            .need(keys, "everyday")
            .wrong("\"" + word + "\" is everyday, but no name of \"" + name + "\"");
      }
    }
    return new Concept(
        name,
        variants,
        everyday,
        keys.containsKey("never") ? texts(value.need(keys, "never")) : List.of(),
        relations,
        keys.containsKey("field") ? value.need(keys, "field").text() : unit,
        unit,
        subject);
  }

  private static List<String> texts(YamlValue list) {
    return list.list().stream().map(YamlValue::text).toList();
  }

  /**
   * Returns the entries of several files by name, in order; a later file's entry takes the place of
   * an earlier file's.
   *
   * @throws LexiconException when one file holds a name twice
   */
  static Map<String, Entry> byName(List<Entry> entries) {
    Map<String, Entry> byName = new LinkedHashMap<>();
    for (Entry entry : entries) {
      Entry before = byName.put(entry.concept().name(), entry);
      if (before != null && before.file().equals(entry.file())) {
        throw new LexiconException(
            entry.file(),
            entry.line(),
            "concept \"" + entry.concept().name() + "\" stands on line " + before.line() + " too");
      }
    }
    return byName;
  }
}

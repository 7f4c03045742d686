package everypart.lexicon;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Reads concept lists; the format is told at the top of each. */
final class ConceptFile {
  private static final Set<String> KEYS = Set.of("concept", "variants", "relates", "field");

  /**
   * An entry and where it stands.
   *
   * @param concept the concept
   * @param file the file
   * @param line the line
   */
  record Entry(Concept concept, String file, int line) {}

  private ConceptFile() {}

  /** Reads one file. */
  static List<Entry> read(LexiconFile file) {
    List<Entry> entries = new ArrayList<>();
    for (YamlValue value : YamlValue.read(file).list()) {
      Map<String, YamlValue> keys = value.map(KEYS);
      Concept concept =
          new Concept(
              value.need(keys, "concept").text(),
              texts(value.need(keys, "variants")),
              texts(value.need(keys, "relates")),
              value.need(keys, "field").text());
      entries.add(new Entry(concept, value.file(), value.line()));
    }
    return entries;
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

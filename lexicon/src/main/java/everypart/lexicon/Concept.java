package everypart.lexicon;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * An idea of a subject that an answer may name.
 *
 * @param name the name, also its id
 * @param variants other names
 * @param everyday those of its names that are everyday words, which count only in company
 * @param never phrases that hold one of its names and do not name it
 * @param relations names of other concepts by how it stands to them
 * @param field the field of study
 * @param unit the unit of a course that it belongs to; empty where its file names none
 * @param subject the subject that it belongs to; empty where its file names none
 */
public record Concept(
    String name,
    List<String> variants,
    List<String> everyday,
    List<String> never,
    Map<RelationType, List<String>> relations,
    String field,
    String unit,
    String subject) {
  /** Copies the lists. */
  public Concept {
    variants = List.copyOf(variants);
    everyday = List.copyOf(everyday);
    never = List.copyOf(never);
    Map<RelationType, List<String>> copied = new EnumMap<>(RelationType.class);
    relations.forEach((type, names) -> copied.put(type, List.copyOf(names)));
    relations = Collections.unmodifiableMap(copied);
  }

  /** Returns its name and its other names. */
  public List<String> names() {
    List<String> names = new ArrayList<>(variants.size() + 1);
    names.add(name);
    names.addAll(variants);
    return names;
  }

  /**
   * Returns the names of the concepts with which it is regularly explained: those it stands to in
   * any way, but for opposites and those that it is only confused with.
   */
  public List<String> relates() {
    Set<String> related = new LinkedHashSet<>();
    relations.forEach(
        (type, names) -> {
          if (type != RelationType.OPPOSITE && type != RelationType.CONFUSED_WITH) {
            related.addAll(names);
          }
        });
    return List.copyOf(related);
  }

  /** Returns the names of the concepts to which it stands in one way. */
  public List<String> related(RelationType type) {
    return relations.getOrDefault(type, List.of());
  }
}

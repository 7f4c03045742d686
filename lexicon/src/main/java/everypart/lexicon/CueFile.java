package everypart.lexicon;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A cue list: named sets of words, and families of patterns.
 *
 * @param sets the sets, as lists of words in the pattern language, by name
 * @param patterns the patterns, in the order of the file
 */
record CueFile(Map<String, YamlValue> sets, List<CuePattern> patterns) {
  private static final Set<String> TOP = Set.of("sets", "cues");
  private static final Set<String> FAMILY =
      Set.of("type", "family", "cause", "effect", "front", "patterns");

  CueFile {
    patterns = List.copyOf(patterns);
  }

  /** Reads one file. */
  static CueFile read(LexiconFile file) {
    return read(YamlValue.read(file));
  }

  /** Takes what was read of a file. */
  static CueFile read(YamlValue root) {
    Map<String, YamlValue> top = root.map(TOP);
    Map<String, YamlValue> sets = top.containsKey("sets") ? top.get("sets").map() : Map.of();
    List<CuePattern> patterns = new ArrayList<>();
    if (top.containsKey("cues")) {
      for (YamlValue family : top.get("cues").list()) {
        addFamily(family, patterns);
      }
    }
    return new CueFile(sets, patterns);
  }

  private static void addFamily(YamlValue family, List<CuePattern> patterns) {
    Map<String, YamlValue> keys = family.map(FAMILY);
    YamlValue typeWord = family.need(keys, "type");
    CueType type;
    try {
      type = CueType.of(typeWord.text());
    } catch (IllegalArgumentException e) {
      throw typeWord.wrong(String.valueOf(e.getMessage()));
    }
    boolean paired = type == CueType.CAUSE_EFFECT;
    Side cause = paired ? side(family.need(keys, "cause")) : Side.NONE;
    Side effect = paired ? side(family.need(keys, "effect")) : Side.NONE;
    boolean front =
        Optional.ofNullable(keys.get("front")).map(v -> v.text().equals("true")).orElse(false);
    String name = family.need(keys, "family").text();
    for (YamlValue pattern : family.need(keys, "patterns").list()) {
      patterns.add(
          new CuePattern(
              type, name, pattern.text(), cause, effect, front, pattern.file(), pattern.line()));
    }
  }

  private static Side side(YamlValue word) {
    for (Side side : Side.values()) {
      if (side.name().toLowerCase(Locale.ROOT).equals(word.text())) {
        return side;
      }
    }
    throw word.wrong("\"" + word.text() + "\" is no side; write before, after, within or none");
  }

  /** Returns the two lists together; sets and families of the later one take the place. */
  CueFile with(CueFile later) {
    Map<String, YamlValue> allSets = new LinkedHashMap<>(sets);
    allSets.putAll(later.sets);
    Set<String> replaced = new HashSet<>();
    for (CuePattern pattern : later.patterns) {
      replaced.add(pattern.type() + " " + pattern.family());
    }
    List<CuePattern> all = new ArrayList<>(patterns);
    all.removeIf(pattern -> replaced.contains(pattern.type() + " " + pattern.family()));
    all.addAll(later.patterns);
    return new CueFile(allSets, all);
  }

  /** Returns the sets with their words read. */
  Map<String, WordCondition> wordSets() {
    Map<String, WordCondition> read = new LinkedHashMap<>();
    for (Map.Entry<String, YamlValue> set : sets.entrySet()) {
      Set<String> forms = new HashSet<>();
      Set<WordShape> shapes = new HashSet<>();
      PatternParser parser = new PatternParser(read);
      for (YamlValue word : set.getValue().list()) {
        try {
          WordCondition test = parser.test(word.text());
          forms.addAll(test.forms());
          shapes.addAll(test.shapes());
        } catch (IllegalArgumentException e) {
          throw word.wrong(String.valueOf(e.getMessage()));
        }
      }
      read.put(set.getKey(), new WordCondition(forms, shapes));
    }
    return read;
  }
}

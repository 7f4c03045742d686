package everypart.lexicon;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * Looks through a folder of lexicon files for what its author should know: mistakes, entries that
 * another one hides, entries that can match nothing, names that two concepts claim, and relations
 * to concepts that do not exist.
 */
public final class LexiconCheck {
  private final Path folder;
  private final List<LexiconRemark> remarks = new ArrayList<>();
  private final List<ConceptFile.Entry> own = new ArrayList<>();
  private final List<CuePattern> cues = new ArrayList<>();
  private final List<LexiconFile> verbs = new ArrayList<>();

  private LexiconCheck(Path folder) {
    this.folder = folder;
  }

  /**
   * Returns the remarks on a folder, errors in the files' order first.
   *
   * @throws LexiconException when the folder cannot be read
   */
  public static List<LexiconRemark> of(Path folder) {
    return new LexiconCheck(folder).run();
  }

  private List<LexiconRemark> run() {
    for (LexiconFile file : Lexicon.filesIn(folder)) {
      read(file);
    }
    if (own.isEmpty() && cues.isEmpty() && verbs.isEmpty() && remarks.isEmpty()) {
      remarks.add(
          LexiconRemark.error(
              folder
                  + ": there is no file to read; names begin with concepts, cues or task-verbs and"
                  + " end with .yaml"));
    }
    concepts();
    patterns();
    taskVerbs();
    if (remarks.stream().noneMatch(remark -> remark.weight() == LexiconRemark.Weight.ERROR)) {
      together();
    }
    return List.copyOf(remarks);
  }

  private void read(LexiconFile file) {
    try {
      switch (file.holds()) {
        case CONCEPTS ->
            own.addAll(
                ConceptFile.read(
                    file,
                    problem ->
                        remarks.add(LexiconRemark.error(String.valueOf(problem.getMessage())))));
        case CUES -> cues.addAll(CueFile.read(file).patterns());
        case TASK_VERBS -> {
          YamlValue.read(file).map();
          verbs.add(file);
        }
        case NOTHING ->
            remarks.add(
                LexiconRemark.note(
                    file.name(),
                    1,
                    "this file is not read; names begin with concepts, cues or task-verbs"));
      }
    } catch (LexiconException e) {
      remarks.add(LexiconRemark.error(String.valueOf(e.getMessage())));
    }
  }

  private void error(ConceptFile.Entry entry, String problem) {
    remarks.add(
        LexiconRemark.error(
            String.valueOf(
                new LexiconException(entry.file(), entry.line(), problem).getMessage())));
  }

  private void note(ConceptFile.Entry entry, String problem) {
    remarks.add(LexiconRemark.note(entry.file(), entry.line(), problem));
  }

  private void concepts() {
    Map<String, ConceptFile.Entry> known = new LinkedHashMap<>();
    for (ConceptFile.Entry entry : Lexicon.bundledConcepts()) {
      known.put(entry.concept().name(), entry);
    }
    Map<String, ConceptFile.Entry> named = new HashMap<>();
    for (ConceptFile.Entry entry : own) {
      String name = entry.concept().name();
      ConceptFile.Entry before = named.put(name, entry);
      if (before != null) {
        error(entry, "concept \"" + name + "\" stands in " + place(before) + " too");
      } else if (known.containsKey(name)) {
        note(entry, "concept \"" + name + "\" takes the place of the one in the program");
      }
    }
    known.putAll(named);
    names(known);
    for (ConceptFile.Entry entry : own) {
      for (List<String> names : entry.concept().relations().values()) {
        for (String related : names) {
          if (!known.containsKey(related)) {
            error(
                entry,
                "\""
                    + entry.concept().name()
                    + "\" relates to \""
                    + related
                    + "\", which is no concept");
          }
        }
      }
    }
  }

  private static String place(ConceptFile.Entry entry) {
    return entry.file() + ", line " + entry.line();
  }

  /** Looks for names that two concepts claim, and names that say nothing new. */
  private void names(Map<String, ConceptFile.Entry> known) {
    ConceptWords words =
        new ConceptWords(
            known.values().stream().flatMap(entry -> entry.concept().names().stream()).toList(),
            WordLists.bundled(),
            UnaryOperator.identity());
    Map<List<Integer>, ConceptFile.Entry> claimed = new HashMap<>();
    for (ConceptFile.Entry entry : own) {
      Set<List<Integer>> said = new HashSet<>();
      for (String name : entry.concept().names()) {
        List<Integer> key = key(words, name);
        if (!said.add(key)) {
          note(entry, "\"" + name + "\" adds nothing: another name of this concept matches it");
          continue;
        }
        ConceptFile.Entry other = claimed.putIfAbsent(key, entry);
        boolean shared =
            other != null
                && entry.concept().everyday().contains(name)
                && other.concept().everyday().stream()
                    .anyMatch(word -> key(words, word).equals(key));
        if (other != null && !shared && !other.concept().name().equals(entry.concept().name())) {
          error(
              entry,
              "\""
                  + name
                  + "\" names \""
                  + other.concept().name()
                  + "\" in "
                  + place(other)
                  + " as well; give one of the two a longer name");
        }
      }
    }
    known.values().stream()
        .filter(entry -> !own.contains(entry))
        .forEach(
            entry -> {
              for (String name : entry.concept().names()) {
                ConceptFile.Entry taker = claimed.get(key(words, name));
                if (taker != null) {
                  note(
                      taker,
                      "\""
                          + taker.concept().name()
                          + "\" takes the name \""
                          + name
                          + "\" from the program's \""
                          + entry.concept().name()
                          + "\"");
                }
              }
            });
  }

  private static List<Integer> key(ConceptWords words, String name) {
    return Arrays.stream(words.ofName(name)).boxed().toList();
  }

  private void patterns() {
    Map<String, CuePattern> seen = new HashMap<>();
    for (CuePattern pattern : cues) {
      CuePattern before = seen.putIfAbsent(pattern.type() + " " + pattern.pattern(), pattern);
      if (before != null) {
        remarks.add(
            LexiconRemark.note(
                pattern.file(),
                pattern.line(),
                "\""
                    + pattern.pattern()
                    + "\" never counts: the same pattern stands on line "
                    + before.line()));
      }
      if (!pattern.pattern().equals(pattern.pattern().toLowerCase(Locale.ROOT))
          && pattern.pattern().chars().noneMatch(c -> "<{[(".indexOf(c) >= 0)) {
        remarks.add(
            LexiconRemark.note(
                pattern.file(),
                pattern.line(),
                "\"" + pattern.pattern() + "\" never matches: words are compared in lower case"));
      }
    }
  }

  private void taskVerbs() {
    Map<String, String> seen = new HashMap<>();
    for (LexiconFile file : verbs) {
      YamlValue list = YamlValue.read(file).map().get("verbs");
      if (list == null) {
        continue;
      }
      for (YamlValue entry : list.list()) {
        YamlValue forms = entry.map().get("forms");
        if (forms == null) {
          remarks.add(
              LexiconRemark.error(
                  file.name() + ", line " + entry.line() + ": the entry lacks \"forms\""));
          continue;
        }
        for (YamlValue form : forms.list()) {
          form(file, form, seen);
        }
      }
    }
  }

  private void form(LexiconFile file, YamlValue form, Map<String, String> seen) {
    String word = form.text();
    String before = seen.putIfAbsent(word, file.name() + ", line " + form.line());
    if (before != null) {
      remarks.add(
          LexiconRemark.note(
              file.name(), form.line(), "\"" + word + "\" stands in " + before + " too"));
    } else if (!word.equals(String.join(" ", NameSplitter.split(word)))) {
      remarks.add(
          LexiconRemark.note(
              file.name(),
              form.line(),
              "\""
                  + word
                  + "\" never matches: write words in lower case with one space between, and"
                  + " marks apart"));
    } else if (TaskVerbs.bundled().verb(word).isPresent()) {
      remarks.add(
          LexiconRemark.note(
              file.name(),
              form.line(),
              "\"" + word + "\" goes before the verb of the program that is the same"));
    }
  }

  /** Loads the folder as a command would, and looks whether each name finds its concept. */
  private void together() {
    Lexicon lexicon;
    try {
      lexicon = Lexicon.load(List.of(folder));
    } catch (LexiconException e) {
      remarks.add(LexiconRemark.error(String.valueOf(e.getMessage())));
      return;
    }
    for (ConceptFile.Entry entry : own) {
      for (String name : entry.concept().names()) {
        Name words = new Name(NameSplitter.split(name), lexicon.forms());
        List<ConceptMatch> found = lexicon.concepts(words, List.of(entry.concept().name()));
        boolean whole =
            found.size() == 1
                && found.get(0).concept().equals(entry.concept().name())
                && found.get(0).at().equals(new TokenRange(0, words.size()));
        if (!whole) {
          note(
              entry,
              "\""
                  + name
                  + "\" never finds this concept"
                  + (found.isEmpty() ? "" : "; \"" + found.get(0).concept() + "\" is found"));
        }
      }
    }
  }

  /** A name as a text would hold it. */
  private record Name(List<String> words, WordForms forms) implements WordSequence {
    @Override
    public int size() {
      return words.size();
    }

    @Override
    public String form(int i) {
      return words.get(i);
    }

    @Override
    public String stem(int i) {
      String word = words.get(i);
      return Character.isLetter(word.charAt(0)) ? forms.stem(word) : word;
    }
  }
}

package everypart.lexicon;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Function;

/**
 * The task verbs and question forms of {@code task-verbs.yaml}: what a wording of a prompt asks
 * for.
 *
 * <p>Built once, shared by all threads. Where several rules of a list match, the first one in the
 * file decides.
 */
public final class TaskVerbs {
  static final String BUNDLED = "task-verbs.yaml";

  private record Compiled(TaskRule rule, WordPattern pattern) {}

  private record VerbForm(TaskVerb verb, List<String> words) {}

  private record Marked<T>(T mark, WordPattern pattern, Set<String> without) {}

  private static final class Bundled {
    static final TaskVerbs INSTANCE = of(List.of());
  }

  private final List<TaskVerb> verbs = new ArrayList<>();
  private final Map<String, List<VerbForm>> forms = new HashMap<>();
  private final Map<String, List<Compiled>> rules = new HashMap<>();
  private final Map<String, List<WordPattern>> patterns = new HashMap<>();
  private final List<Marked<AnswerForm>> answerForms = new ArrayList<>();
  private final List<Marked<Aspect>> aspects = new ArrayList<>();
  private final Map<String, List<String>> classes = new HashMap<>();
  private final Map<String, Set<String>> words = new HashMap<>();

  private TaskVerbs() {}

  /** Returns the task verbs that come with the program. */
  public static TaskVerbs bundled() {
    return Bundled.INSTANCE;
  }

  /**
   * Reads task verbs.
   *
   * @param name names the file in messages
   * @throws IllegalArgumentException with the file, the place and what is wrong
   */
  public static TaskVerbs read(String name, String yaml) {
    return read(List.of(new LexiconFile(name, yaml)));
  }

  /**
   * Returns the task verbs that come with the program with those of some files added. What a later
   * file says goes before what an earlier one says.
   *
   * @throws IllegalArgumentException with the file, the place and what is wrong
   */
  static TaskVerbs of(List<LexiconFile> added) {
    List<LexiconFile> files = new ArrayList<>();
    files.add(LexiconFile.bundled(BUNDLED));
    files.addAll(added);
    return read(files);
  }

  private static TaskVerbs read(List<LexiconFile> files) {
    TaskVerbs verbs = new TaskVerbs();
    List<JsonNode> roots = new ArrayList<>();
    for (LexiconFile file : files) {
      JsonNode root = root(file);
      roots.add(root);
      root.path("words")
          .properties()
          .forEach(
              list ->
                  verbs.classes.put(
                      list.getKey(), Language.english().expand(strings(list.getValue()))));
    }
    verbs.classes.forEach((list, words) -> verbs.words.put("@" + list, Set.copyOf(words)));
    for (int at = files.size() - 1; at >= 0; at--) {
      verbs.add(files.get(at), roots.get(at));
    }
    Comparator<VerbForm> longestFirst = Comparator.comparingInt(form -> -form.words().size());
    verbs.forms.values().forEach(list -> list.sort(longestFirst));
    return verbs;
  }

  private static JsonNode root(LexiconFile file) {
    if (file.name().equals(BUNDLED)) {
      return YamlValue.bundled(BUNDLED).json();
    }
    try {
      return new YAMLMapper().readTree(file.text());
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException(
          file.name() + ", line " + e.getLocation().getLineNr() + ": " + e.getOriginalMessage(), e);
    }
  }

  private void add(LexiconFile file, JsonNode root) {
    readVerbs(file, root.path("verbs"));
    for (String list : List.of("objects", "questions", "yes-no", "trailers", "drawn")) {
      readRules(file, list, root.path(list));
    }
    for (String list :
        List.of("licences", "asides", "includes", "pairs", "inserts", "optional", "directions")) {
      readPatterns(file, list, root.path(list));
    }
    answerForms.addAll(marked(file, "forms", root.path("forms"), AnswerForm::of));
    aspects.addAll(marked(file, "aspects", root.path("aspects"), Aspect::of));
    for (String list : List.of("openings", "adverbs", "objectStarts")) {
      words.computeIfAbsent(list, key -> new HashSet<>()).addAll(strings(root.path(list)));
    }
  }

  private void readVerbs(LexiconFile file, JsonNode entries) {
    for (int i = 0; i < entries.size(); i++) {
      JsonNode entry = entries.get(i);
      Entry place = new Entry(file, "verbs", i);
      DemandKind kind = inPlace(place, () -> DemandKind.of(entry.path("kind").asText("")));
      TaskVerb.Place where =
          inPlace(
              place,
              () ->
                  TaskVerb.Place.valueOf(entry.path("place").asText("").toUpperCase(Locale.ROOT)));
      for (String form : strings(entry.path("forms"))) {
        TaskVerb verb =
            new TaskVerb(
                form,
                entry.path("group").asText(),
                kind,
                where,
                entry.path("why").asText(),
                strings(entry.path("never")));
        verbs.add(verb);
        add(forms, verb, List.of(form.split(" ")));
      }
    }
  }

  private static void add(Map<String, List<VerbForm>> index, TaskVerb verb, List<String> words) {
    index.computeIfAbsent(words.get(0), first -> new ArrayList<>()).add(new VerbForm(verb, words));
  }

  private void readRules(LexiconFile file, String list, JsonNode entries) {
    List<Compiled> compiled = new ArrayList<>();
    for (int i = 0; i < entries.size(); i++) {
      JsonNode entry = entries.get(i);
      Entry place = new Entry(file, list, i);
      String source = entry.path("pattern").asText();
      TaskRule.Reading reading =
          inPlace(
              place,
              () ->
                  TaskRule.Reading.valueOf(
                      entry
                          .path("role")
                          .asText("demand")
                          .replace('-', '_')
                          .toUpperCase(Locale.ROOT)));
      Optional<DemandKind> kind =
          reading == TaskRule.Reading.DEMAND
              ? Optional.of(inPlace(place, () -> DemandKind.of(entry.path("kind").asText(""))))
              : Optional.empty();
      TaskRule rule =
          new TaskRule(
              source,
              reading,
              kind,
              entry.has("or")
                  ? Optional.of(inPlace(place, () -> DemandKind.of(entry.path("or").asText())))
                  : Optional.empty(),
              entry.has("count") ? Optional.of(entry.path("count").asInt()) : Optional.empty(),
              entry.path("why").asText(),
              strings(entry.path("after")),
              new HashSet<>(strings(entry.path("without"))),
              inPlace(
                  place,
                  () ->
                      TaskRule.Setting.valueOf(
                          entry.path("when").asText("any").toUpperCase(Locale.ROOT))));
      compiled.add(new Compiled(rule, inPlace(place, () -> new WordPattern(source, classes))));
    }
    rules.computeIfAbsent(list, key -> new ArrayList<>()).addAll(compiled);
  }

  private void readPatterns(LexiconFile file, String list, JsonNode entries) {
    List<WordPattern> compiled = new ArrayList<>();
    for (int i = 0; i < entries.size(); i++) {
      String source = entries.get(i).asText();
      compiled.add(inPlace(new Entry(file, list, i), () -> new WordPattern(source, classes)));
    }
    patterns.computeIfAbsent(list, key -> new ArrayList<>()).addAll(compiled);
  }

  private <T> List<Marked<T>> marked(
      LexiconFile file, String list, JsonNode entries, Function<String, T> mark) {
    List<Marked<T>> marked = new ArrayList<>();
    for (int i = 0; i < entries.size(); i++) {
      JsonNode entry = entries.get(i);
      String source = entry.path("pattern").asText();
      marked.add(
          inPlace(
              new Entry(file, list, i),
              () ->
                  new Marked<>(
                      mark.apply(entry.path("as").asText()),
                      new WordPattern(source, classes),
                      new HashSet<>(strings(entry.path("without"))))));
    }
    return marked;
  }

  private interface Step<T> {
    T run();
  }

  /** An entry of a list, named by its line when something is wrong with it. */
  private record Entry(LexiconFile file, String list, int at) {
    String place() {
      YamlValue root = YamlValue.read(file);
      int line = root.need(root.map(), list).list().get(at).line();
      return file.name() + ", line " + line + " (" + list + ", entry " + (at + 1) + ")";
    }
  }

  private static <T> T inPlace(Entry entry, Step<T> step) {
    try {
      return step.run();
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(entry.place() + ": " + e.getMessage(), e);
    }
  }

  private static List<String> strings(JsonNode list) {
    List<String> strings = new ArrayList<>();
    list.forEach(item -> strings.add(item.asText()));
    return strings;
  }

  /** Returns all verbs, in the order of the file. */
  public List<TaskVerb> verbs() {
    return List.copyOf(verbs);
  }

  /** Returns a verb by its form, the first in the file. */
  public Optional<TaskVerb> verb(String form) {
    return verbs.stream().filter(verb -> verb.form().equals(form)).findFirst();
  }

  /** Returns the longest verb that begins at a token, in the form in which it makes a demand. */
  public Optional<TaskMatch<TaskVerb>> verbAt(WordLine line, int from) {
    for (VerbForm form : forms.getOrDefault(line.form(from), List.of())) {
      int to = from + form.words().size();
      if (to <= line.size() && matches(form.words(), line, from)) {
        return Optional.of(new TaskMatch<>(form.verb(), new TokenRange(from, to)));
      }
    }
    return Optional.empty();
  }

  private static boolean matches(List<String> words, WordLine line, int from) {
    for (int i = 0; i < words.size(); i++) {
      if (!words.get(i).equals(line.form(from + i))) {
        return false;
      }
    }
    return true;
  }

  /**
   * Returns the rule that an object of a verb falls under, when it says more than the verb.
   *
   * @param from where the object begins
   * @param to where its clause ends
   * @param settings what the words of the demand, or before it, hold
   */
  public Optional<TaskMatch<TaskRule>> object(
      TaskVerb verb, WordLine line, int from, int to, Set<TaskRule.Setting> settings) {
    return first("objects", verb.group(), line, from, to, settings);
  }

  /**
   * Returns the rule for a question that begins with a question word.
   *
   * @param settings what the words before the question, or in it, hold
   */
  public Optional<TaskMatch<TaskRule>> question(
      WordLine line, int from, int to, Set<TaskRule.Setting> settings) {
    return first("questions", "", line, from, to, settings);
  }

  /** Returns the rule for a question that begins with "is", "does", "can" and the like. */
  public Optional<TaskMatch<TaskRule>> yesNo(
      WordLine line, int from, int to, Set<TaskRule.Setting> settings) {
    return first("yes-no", "", line, from, to, settings);
  }

  /** Returns the rule for words behind a demand that make one more. */
  public Optional<TaskMatch<TaskRule>> trailer(WordLine line, int from) {
    return first("trailers", "", line, from, line.size(), Set.of());
  }

  /** Returns the rule for an opening that asks for a drawing. */
  public Optional<TaskMatch<TaskRule>> drawn(WordLine line, int from) {
    return first("drawn", "", line, from, line.size(), Set.of());
  }

  private Optional<TaskMatch<TaskRule>> first(
      String list, String group, WordLine line, int from, int to, Set<TaskRule.Setting> settings) {
    for (Compiled compiled : rules.getOrDefault(list, List.of())) {
      TaskRule rule = compiled.rule();
      if ((rule.setting() != TaskRule.Setting.ANY && !settings.contains(rule.setting()))
          || (!rule.after().isEmpty() && !rule.after().contains(group))) {
        continue;
      }
      OptionalInt end = compiled.pattern().match(line, from, to);
      if (end.isPresent() && lacks(rule.without(), line, from, end.getAsInt())) {
        return Optional.of(new TaskMatch<>(rule, new TokenRange(from, end.getAsInt())));
      }
    }
    return Optional.empty();
  }

  private static boolean lacks(Set<String> words, WordLine line, int from, int to) {
    for (int i = from; i < to; i++) {
      if (words.contains(line.form(i))) {
        return false;
      }
    }
    return true;
  }

  /** Returns the form of answer that words ask for which begin a question or a verb's object. */
  public Optional<AnswerForm> answerForm(WordLine line, int from, int to) {
    return answerForms.stream()
        .filter(form -> stands(form, line, from, to))
        .map(Marked::mark)
        .findFirst();
  }

  /** Returns what a stretch of wording asks for beside its kind of demand. */
  public Set<Aspect> aspects(WordLine line, int from, int to) {
    Set<Aspect> found = EnumSet.noneOf(Aspect.class);
    for (Marked<Aspect> aspect : aspects) {
      for (int i = from; i < to && !found.contains(aspect.mark()); i++) {
        if (stands(aspect, line, i, to)) {
          found.add(aspect.mark());
        }
      }
    }
    return found;
  }

  private static boolean stands(Marked<?> marked, WordLine line, int from, int to) {
    OptionalInt end = marked.pattern().match(line, from, to);
    return end.isPresent() && lacks(marked.without(), line, from, end.getAsInt());
  }

  /** Returns where words end after which a task verb makes a demand, such as "you should". */
  public OptionalInt licence(WordLine line, int from) {
    return first("licences", line, from);
  }

  /** Tells whether an instruction to the candidate, or another wording that demands nothing. */
  public boolean isAside(WordLine line, int from) {
    return first("asides", line, from).isPresent();
  }

  /** Tells whether a sentence announces a list of what the answer has to hold. */
  public boolean announcesList(WordLine line, int from) {
    return first("includes", line, from).isPresent();
  }

  /** Returns where a pair of nouns ends that asks for two things, such as "pros and cons". */
  public OptionalInt pair(WordLine line, int from) {
    return first("pairs", line, from);
  }

  /** Returns where words end that stand between a verb and its object, as "in your own words". */
  public OptionalInt insert(WordLine line, int from) {
    return first("inserts", line, from);
  }

  /** Returns where words end that say what the writer is to use, as "using the data". */
  public OptionalInt direction(WordLine line, int from) {
    return first("directions", line, from);
  }

  /** Returns where words end that say that what follows may be left out, as "bonus:". */
  public OptionalInt optional(WordLine line, int from) {
    return first("optional", line, from);
  }

  private OptionalInt first(String list, WordLine line, int from) {
    for (WordPattern pattern : patterns.getOrDefault(list, List.of())) {
      OptionalInt end = pattern.match(line, from, line.size());
      if (end.isPresent()) {
        return end;
      }
    }
    return OptionalInt.empty();
  }

  /** Tells whether a word may open a sentence whose demand stands behind a comma. */
  public boolean isOpening(String form) {
    return words.getOrDefault("openings", Set.of()).contains(form);
  }

  /** Tells whether a word may stand between the start of a clause and its verb. */
  public boolean isAdverb(String form) {
    return words.getOrDefault("adverbs", Set.of()).contains(form);
  }

  /** Tells whether a word may begin the object of a task verb. */
  public boolean isObjectStart(String form) {
    return words.getOrDefault("objectStarts", Set.of()).contains(form);
  }

  /** Returns one of the file's word lists, given by its name, in the order of the file. */
  public List<String> list(String name) {
    return classes.getOrDefault(name, List.of());
  }

  /** Tells whether a word is in one of the file's word lists, given by its name. */
  public boolean isIn(String list, String form) {
    return words.getOrDefault("@" + list, Set.of()).contains(form);
  }
}

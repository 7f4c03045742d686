package everypart.lexicon;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * The task verbs and question forms of {@code task-verbs.yaml}: what a wording of a prompt asks
 * for.
 *
 * <p>Built once, shared by all threads. Where several rules of a list match, the first one in the
 * file decides.
 */
public final class TaskVerbs {
  static final String BUNDLED = "task-verbs.yaml";
  private static final Pattern SHORT_VOWEL_BEFORE_LAST =
      Pattern.compile("[^aeiou]*[^aeiou][aeiou][bdgmnpt]");

  private record Compiled(TaskRule rule, WordPattern pattern) {}

  private record Form(TaskVerb verb, List<String> words) {}

  private static final class Bundled {
    static final TaskVerbs INSTANCE = load();

    private static TaskVerbs load() {
      try (InputStream in = TaskVerbs.class.getResourceAsStream(BUNDLED)) {
        if (in == null) {
          throw new IllegalStateException(BUNDLED + " is not on the class path");
        }
        return read(BUNDLED, new String(in.readAllBytes(), StandardCharsets.UTF_8));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private final List<TaskVerb> verbs = new ArrayList<>();
  private final Map<String, List<Form>> forms = new HashMap<>();
  private final Map<String, List<Form>> participles = new HashMap<>();
  private final Map<String, List<Compiled>> rules = new HashMap<>();
  private final Map<String, List<WordPattern>> patterns = new HashMap<>();
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
    JsonNode root;
    try {
      root = new YAMLMapper().readTree(yaml);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException(
          name + ", line " + e.getLocation().getLineNr() + ": " + e.getOriginalMessage(), e);
    }
    TaskVerbs verbs = new TaskVerbs();
    root.path("words")
        .properties()
        .forEach(list -> verbs.classes.put(list.getKey(), strings(list.getValue())));
    verbs.readVerbs(name, root.path("verbs"));
    for (String list : List.of("objects", "questions", "yes-no", "trailers", "drawn")) {
      verbs.readRules(name, list, root.path(list));
    }
    for (String list : List.of("licences", "asides", "includes", "pairs", "inserts", "optional")) {
      verbs.readPatterns(name, list, root.path(list));
    }
    for (String list : List.of("openings", "adverbs", "objectStarts")) {
      verbs.words.put(list, Set.copyOf(new HashSet<>(strings(root.path(list)))));
    }
    return verbs;
  }

  private void readVerbs(String name, JsonNode entries) {
    for (int i = 0; i < entries.size(); i++) {
      JsonNode entry = entries.get(i);
      String place = "verbs, entry " + (i + 1);
      DemandKind kind = inPlace(name, place, () -> DemandKind.of(entry.path("kind").asText("")));
      TaskVerb.Place where =
          inPlace(
              name,
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
        List<String> parts = List.of(form.split(" "));
        add(forms, verb, parts);
        if (where != TaskVerb.Place.START) {
          List<String> going = new ArrayList<>(parts);
          going.set(0, participle(parts.get(0)));
          add(participles, verb, going);
        }
      }
    }
    Comparator<Form> longestFirst = Comparator.comparingInt(form -> -form.words().size());
    forms.values().forEach(list -> list.sort(longestFirst));
    participles.values().forEach(list -> list.sort(longestFirst));
  }

  private static void add(Map<String, List<Form>> index, TaskVerb verb, List<String> words) {
    index.computeIfAbsent(words.get(0), first -> new ArrayList<>()).add(new Form(verb, words));
  }

  /** Returns the "-ing" form of a verb. */
  private static String participle(String verb) {
    if (verb.endsWith("e") && !verb.endsWith("ee")) {
      return verb.substring(0, verb.length() - 1) + "ing";
    }
    return SHORT_VOWEL_BEFORE_LAST.matcher(verb).matches()
        ? verb + verb.charAt(verb.length() - 1) + "ing"
        : verb + "ing";
  }

  private void readRules(String name, String list, JsonNode entries) {
    List<Compiled> compiled = new ArrayList<>();
    for (int i = 0; i < entries.size(); i++) {
      JsonNode entry = entries.get(i);
      String place = list + ", entry " + (i + 1);
      String source = entry.path("pattern").asText();
      TaskRule.Reading reading =
          inPlace(
              name,
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
              ? Optional.of(
                  inPlace(name, place, () -> DemandKind.of(entry.path("kind").asText(""))))
              : Optional.empty();
      TaskRule rule =
          new TaskRule(
              source,
              reading,
              kind,
              entry.has("count") ? Optional.of(entry.path("count").asInt()) : Optional.empty(),
              entry.path("why").asText(),
              strings(entry.path("after")),
              new HashSet<>(strings(entry.path("without"))),
              entry.path("when").asText("").equals("supposed"));
      compiled.add(
          new Compiled(rule, inPlace(name, place, () -> new WordPattern(source, classes))));
    }
    rules.put(list, compiled);
  }

  private void readPatterns(String name, String list, JsonNode entries) {
    List<WordPattern> compiled = new ArrayList<>();
    for (int i = 0; i < entries.size(); i++) {
      String source = entries.get(i).asText();
      compiled.add(
          inPlace(name, list + ", entry " + (i + 1), () -> new WordPattern(source, classes)));
    }
    patterns.put(list, compiled);
  }

  private interface Step<T> {
    T run();
  }

  private static <T> T inPlace(String name, String place, Step<T> step) {
    try {
      return step.run();
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(name + ", " + place + ": " + e.getMessage(), e);
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
    return find(forms, line, from);
  }

  /** Returns the longest verb that begins at a token in its "-ing" form. */
  public Optional<TaskMatch<TaskVerb>> participleAt(WordLine line, int from) {
    return find(participles, line, from);
  }

  private static Optional<TaskMatch<TaskVerb>> find(
      Map<String, List<Form>> index, WordLine line, int from) {
    for (Form form : index.getOrDefault(line.form(from), List.of())) {
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
   */
  public Optional<TaskMatch<TaskRule>> object(TaskVerb verb, WordLine line, int from, int to) {
    return first("objects", verb.group(), line, from, to, false);
  }

  /**
   * Returns the rule for a question that begins with a question word.
   *
   * @param supposed whether the question is about an imagined case
   */
  public Optional<TaskMatch<TaskRule>> question(WordLine line, int from, int to, boolean supposed) {
    return first("questions", "", line, from, to, supposed);
  }

  /** Returns the rule for a question that begins with "is", "does", "can" and the like. */
  public Optional<TaskMatch<TaskRule>> yesNo(WordLine line, int from, int to) {
    return first("yes-no", "", line, from, to, false);
  }

  /** Returns the rule for words behind a demand that make one more. */
  public Optional<TaskMatch<TaskRule>> trailer(WordLine line, int from) {
    return first("trailers", "", line, from, line.size(), false);
  }

  /** Returns the rule for an opening that asks for a drawing. */
  public Optional<TaskMatch<TaskRule>> drawn(WordLine line, int from) {
    return first("drawn", "", line, from, line.size(), false);
  }

  private Optional<TaskMatch<TaskRule>> first(
      String list, String group, WordLine line, int from, int to, boolean supposed) {
    for (Compiled compiled : rules.getOrDefault(list, List.of())) {
      TaskRule rule = compiled.rule();
      if ((rule.supposed() && !supposed)
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

  /** Tells whether a word is in one of the file's word lists, given by its name. */
  public boolean isIn(String list, String form) {
    return classes.getOrDefault(list, List.of()).contains(form);
  }
}

package everypart.lexicon;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The way into the lexicon: cue patterns and concepts, found in a run of tokens.
 *
 * <p>A lexicon is built once and shared by all threads.
 */
public final class Lexicon {
  private static final List<String> CONCEPT_FILES =
      Stream.of(
              "biology-1-chemistry-of-life",
              "biology-2-cells",
              "biology-3-energetics",
              "biology-4-communication-and-cycle",
              "biology-5-heredity",
              "biology-6-gene-expression",
              "biology-7-natural-selection",
              "biology-8-ecology",
              "physiology",
              "plants",
              "diversity",
              "experiments-and-data",
              "general-science",
              "chemistry",
              "physics",
              "earth-science",
              "psychology",
              "economics",
              "geography")
          .map(name -> "concepts-" + name + ".yaml")
          .toList();

  private static final String CUES = "cues.yaml";
  private static final String WORDS = "words.txt.gz";
  private static final String TARGETS = "targets.table";
  private static final String NUMBERS = "numbers.table";

  /** In how many names a word must stand to be one that misspellings are readily tried for. */
  private static final int OFTEN = 3;

  private final List<LexiconFile> added;
  private final TaskVerbs taskVerbs;
  private final WordForms forms;
  private final Spelling spelling;
  private final List<CuePattern> patterns;
  private final CueMatcher cues;
  private final Map<String, Concept> concepts;
  private final ConceptMatcher conceptMatcher;
  private volatile @Nullable ConceptGraph graph;
  private volatile @Nullable ConceptIndex conceptIndex;

  private Lexicon(
      List<LexiconFile> added,
      TaskVerbs taskVerbs,
      CueFile cueFile,
      Collection<ConceptFile.Entry> entries,
      boolean mends) {
    this.added = List.copyOf(added);
    this.taskVerbs = taskVerbs;
    this.patterns = cueFile.patterns();
    this.cues = matcher(cueFile);
    Prepared prepared = added.isEmpty() ? Prepared.bundled() : prepare(cues, entries);
    this.spelling =
        new Spelling(
            mends ? prepared.targets : Table.of(Map.of()), WordLists.bundled(), new WordForms());
    this.forms = new WordForms(spelling::mend);
    Map<String, Concept> byName = new LinkedHashMap<>();
    for (ConceptFile.Entry entry : entries) {
      byName.put(entry.concept().name(), entry.concept());
    }
    this.concepts = byName;
    this.conceptMatcher =
        new ConceptMatcher(
            byName.values(),
            new ConceptWords(prepared.numbers, WordLists.bundled(), spelling::mend));
  }

  /** What takes long to work out of cues and concepts, so that the build keeps it for a start. */
  private record Prepared(Table targets, Table numbers) {
    private static Prepared bundled() {
      Optional<Table> targets = Table.bundled(TARGETS);
      Optional<Table> numbers = Table.bundled(NUMBERS);
      if (targets.isEmpty() || numbers.isEmpty()) {
        return Bundled.PREPARED;
      }
      return new Prepared(targets.get(), numbers.get());
    }
  }

  /** Holds what is worked out of the bundled files where the build has not kept it. */
  private static final class Bundled {
    static final Prepared PREPARED = prepare(bundledCues(), bundledConcepts());
  }

  private static CueMatcher bundledCues() {
    return matcher(CueFile.read(YamlValue.bundled(CUES)));
  }

  private static CueMatcher matcher(CueFile file) {
    return new CueMatcher(file.patterns(), new PatternParser(file.wordSets()), WordLists.bundled());
  }

  private static Prepared prepare(CueMatcher cues, Collection<ConceptFile.Entry> entries) {
    WordLists lists = WordLists.bundled();
    Set<String> names = new HashSet<>();
    for (ConceptFile.Entry entry : entries) {
      names.addAll(entry.concept().names());
      names.addAll(entry.concept().never());
    }
    Map<String, Integer> counts = new HashMap<>();
    for (String name : names) {
      NameSplitter.split(name).forEach(word -> counts.merge(word, 1, Integer::sum));
    }
    Set<String> words = new HashSet<>(cues.forms());
    Set<String> rare = new HashSet<>();
    counts.forEach(
        (word, count) -> (count >= OFTEN || lists.isFairlyCommon(word) ? words : rare).add(word));
    return new Prepared(
        Table.of(Spelling.targets(words, rare, lists)),
        Table.of(new ConceptWords(names, lists, UnaryOperator.identity()).numbers()));
  }

  /**
   * Returns what the build keeps for a start, by the names of files: the bundled files as they were
   * read, and what is worked out of them.
   */
  static Map<String, byte[]> kept() {
    Map<String, byte[]> kept = new LinkedHashMap<>();
    List<String> files = new ArrayList<>(List.of(Language.BUNDLED, CUES, TaskVerbs.BUNDLED));
    files.addAll(CONCEPT_FILES);
    for (String name : files) {
      kept.put(name + YamlValue.READ, YamlValue.read(LexiconFile.bundled(name)).bytes());
    }
    WordLists lists = WordLists.bundled();
    kept.put(WordLists.TABLE, Table.bytes(WordLists.numbers()));
    kept.put(WordWeights.TABLE, Table.bytes(WordWeights.doubledCounts(lists, new WordForms())));
    List<ConceptFile.Entry> entries = together(List.of(), bundledConcepts());
    Prepared prepared = prepare(bundledCues(), entries);
    kept.put(TARGETS, prepared.targets.toBytes());
    kept.put(NUMBERS, prepared.numbers.toBytes());
    return kept;
  }

  /** Returns the lexicon that comes with the program. */
  public static Lexicon bundled() {
    return load(List.of());
  }

  /**
   * Returns the lexicon that comes with the program, with the files {@code cues*.yaml}, {@code
   * concepts*.yaml} and {@code task-verbs*.yaml} of some folders added to it. A family of cues, a
   * word set or a concept of the same name takes the place of the one that was there; a name of a
   * concept or a task verb goes before the same one that comes with the program.
   *
   * @throws LexiconException naming file, line and problem
   */
  public static Lexicon load(List<Path> folders) {
    return load(folders, true);
  }

  /**
   * Returns the lexicon that comes with the program, taking every word as it is spelled: to measure
   * what mending misspellings earns.
   */
  public static Lexicon asSpelled() {
    return load(List.of(), false);
  }

  private static Lexicon load(List<Path> folders, boolean mends) {
    List<LexiconFile> added = new ArrayList<>();
    CueFile cueFile = CueFile.read(YamlValue.bundled(CUES));
    List<ConceptFile.Entry> bundled = bundledConcepts();
    List<ConceptFile.Entry> own = new ArrayList<>();
    List<LexiconFile> verbs = new ArrayList<>();
    for (Path folder : folders) {
      for (LexiconFile file : filesIn(folder)) {
        switch (file.holds()) {
          case CUES -> cueFile = cueFile.with(CueFile.read(file));
          case CONCEPTS -> own.addAll(ConceptFile.read(file));
          case TASK_VERBS -> verbs.add(file);
          case NOTHING -> {}
        }
        if (file.holds() != LexiconFile.Content.NOTHING) {
          added.add(file);
        }
      }
    }
    return new Lexicon(added, taskVerbs(verbs), cueFile, together(own, bundled), mends);
  }

  static List<ConceptFile.Entry> bundledConcepts() {
    return BundledConcepts.ENTRIES;
  }

  /** Holds the concepts that come with the program, read on first need. */
  private static final class BundledConcepts {
    static final List<ConceptFile.Entry> ENTRIES =
        CONCEPT_FILES.stream()
            .flatMap(name -> ConceptFile.read(YamlValue.bundled(name)).stream())
            .toList();
  }

  /** Returns all concepts, own ones first, since of two concepts the first holds a name. */
  private static List<ConceptFile.Entry> together(
      List<ConceptFile.Entry> own, List<ConceptFile.Entry> bundled) {
    Map<String, ConceptFile.Entry> first = ConceptFile.byName(own);
    List<ConceptFile.Entry> all = new ArrayList<>(first.values());
    for (ConceptFile.Entry entry : ConceptFile.byName(bundled).values()) {
      if (!first.containsKey(entry.concept().name())) {
        all.add(entry);
      }
    }
    return all;
  }

  private static TaskVerbs taskVerbs(List<LexiconFile> files) {
    try {
      return files.isEmpty() ? TaskVerbs.bundled() : TaskVerbs.of(files);
    } catch (IllegalArgumentException e) {
      throw new LexiconException(String.valueOf(e.getMessage()));
    }
  }

  /** Returns the files of a folder whose names end with .yaml, sorted by name. */
  static List<LexiconFile> filesIn(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(path -> path.toString().endsWith(".yaml"))
          .sorted()
          .map(LexiconFile::at)
          .toList();
    } catch (IOException e) {
      throw new LexiconException(
          folder.toString(), 0, "there is no such folder, or it cannot be read");
    }
  }

  /** Returns the task verbs and question forms. */
  public TaskVerbs taskVerbs() {
    return taskVerbs;
  }

  /** Returns the files it was read from, those that come with the program first. */
  public List<LexiconSource> sources() {
    List<LexiconSource> sources = new ArrayList<>();
    for (String name : List.of(CUES, TaskVerbs.BUNDLED, WORDS)) {
      sources.add(LexiconFile.bundledSource(name));
    }
    for (String name : CONCEPT_FILES) {
      sources.add(LexiconFile.bundledSource(name));
    }
    added.forEach(file -> sources.add(file.source()));
    return sources;
  }

  /**
   * Returns the stemmer that tokens must be stemmed with to be matched. A misspelt word of the
   * lexicon gets the stem of the word that it stands for.
   */
  public WordForms forms() {
    return forms;
  }

  /**
   * Returns the word of the lexicon that a misspelt form stands for, or the form itself.
   *
   * @param form a word in lower case
   */
  public String mend(String form) {
    return spelling.mend(form);
  }

  /**
   * Tells whether a form is an English word, or stands in a cue or concept that comes with the
   * program. Needs no lexicon to be read.
   *
   * @param form a word in lower case
   */
  public static boolean isWord(String form) {
    return WordLists.bundled().isWord(form) || BundledTargets.WORDS.has(form);
  }

  /** Holds the words of the bundled cues and concepts, read on first need. */
  private static final class BundledTargets {
    static final Table WORDS = Prepared.bundled().targets;
  }

  /** Tells whether misspellings are tried for a word, since a cue or concept has it. */
  boolean isTarget(String form) {
    return spelling.isTarget(form);
  }

  /** Returns the names of the families of cues of a type, in the order of the files. */
  public List<String> cueFamilies(CueType type) {
    return patterns.stream()
        .filter(pattern -> pattern.type() == type)
        .map(CuePattern::family)
        .distinct()
        .toList();
  }

  /** Returns the cues in a run of tokens, by where they begin. */
  public List<CueMatch> cues(WordSequence words) {
    return cues.match(mended(words));
  }

  /** Returns the tokens with misspelt words of the lexicon put right; most often the same run. */
  private WordSequence mended(WordSequence words) {
    Map<Integer, String> mended = Map.of();
    for (int i = 0; i < words.size(); i++) {
      String form = words.form(i);
      String right = spelling.mend(form);
      if (!right.equals(form)) {
        mended = mended.isEmpty() ? new HashMap<>() : mended;
        mended.put(i, right);
      }
    }
    return mended.isEmpty() ? words : new Mended(words, mended);
  }

  private record Mended(WordSequence words, Map<Integer, String> mended) implements WordSequence {
    @Override
    public int size() {
      return words.size();
    }

    @Override
    public String form(int i) {
      return mended.getOrDefault(i, words.form(i));
    }

    @Override
    public String stem(int i) {
      return words.stem(i);
    }
  }

  /**
   * Returns the concepts in a run of tokens, longest match first at each place, without overlap. An
   * everyday word counts where the run names another concept of the same subject.
   */
  public List<ConceptMatch> concepts(WordSequence words) {
    return concepts(words, List.of());
  }

  /**
   * Returns the concepts in a run of tokens, as {@link #concepts(WordSequence)} does, where more is
   * known of what the run is about.
   *
   * @param about names of concepts, of the question, say; an everyday word counts in their company,
   *     too; names that no concept has are passed over
   */
  public List<ConceptMatch> concepts(WordSequence words, Collection<String> about) {
    return conceptMatcher.match(words, about);
  }

  /**
   * Returns how near two concepts are by the relations between them: 1 for the same concept, 0 for
   * two that have nothing to do with each other or that do not exist. A direct relation gives about
   * a half; ways through concepts that have many relations count less.
   */
  public double relatedness(String one, String other) {
    ConceptGraph steps = graph;
    if (steps == null) {
      steps = new ConceptGraph(concepts.values());
      graph = steps;
    }
    return steps.relatedness(one, other);
  }

  /**
   * Returns the names of the concepts whose files say that they stand to a concept in some way: its
   * kinds under {@link RelationType#BROADER}, its parts under {@link RelationType#PART_OF}, and so
   * on. Kinds of relation that no concept names it in are absent.
   */
  public Map<RelationType, List<String>> namedBy(String name) {
    Map<RelationType, List<String>> named = new EnumMap<>(RelationType.class);
    for (Concept concept : concepts.values()) {
      concept
          .relations()
          .forEach(
              (type, names) -> {
                if (names.contains(name)) {
                  named.computeIfAbsent(type, key -> new ArrayList<>()).add(concept.name());
                }
              });
    }
    return named;
  }

  /** Returns the words of a name in a form that all inflections share. */
  List<Integer> keyOf(String name) {
    return conceptMatcher.keyOf(name);
  }

  /** Returns all concepts, in the order of the files. */
  public Collection<Concept> concepts() {
    return List.copyOf(concepts.values());
  }

  /** Returns a concept by its name. */
  public Optional<Concept> concept(String name) {
    return Optional.ofNullable(concepts.get(name));
  }

  /**
   * Looks concepts up, as a person would: by some words of a name, of another name, or of a concept
   * that goes with it. Inflections do not matter, and small slips of spelling are forgiven.
   *
   * @param words the words looked for
   * @param most the most concepts to return, 1 or more
   * @return the concepts, best match first; empty where none has any of the words
   * @throws IllegalArgumentException when {@code most} is below 1
   */
  public List<Concept> search(String words, int most) {
    if (most < 1) {
      throw new IllegalArgumentException("most is " + most + "; it must be 1 or more");
    }
    ConceptIndex index = conceptIndex;
    if (index == null) {
      index = new ConceptIndex(concepts.values(), forms);
      conceptIndex = index;
    }
    return index.search(words, most);
  }

  /** Returns how much each word tells of what a text is about. */
  public WordWeights weights() {
    return Weights.BUNDLED;
  }

  /** Holds the weights, read on first need. */
  private static final class Weights {
    static final WordWeights BUNDLED = WordWeights.bundled();
  }
}

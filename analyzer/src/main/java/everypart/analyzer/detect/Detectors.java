package everypart.analyzer.detect;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.assign.Stretch;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;

/** The detectors, one for each kind of demand that text can answer. Serves all threads. */
public final class Detectors {
  private static final int MOST_PROMPTS = 1_000;

  private final Set<Stage> left;
  private final WordClasses words;
  private final ClauseSplitter splitter;
  private final Moves moves;
  private final TextReader texts;
  private final PointFinder points;
  private final Map<DemandKind, Detector> detectors = new EnumMap<>(DemandKind.class);
  private final Map<Prompt, PromptReading> prompts = new ConcurrentHashMap<>();

  /** A prompt as the detectors see it: its subject, and its parts by their labels. */
  record PromptReading(Subject subject, Map<String, PartReading> parts) {
    PromptReading {
      parts = Map.copyOf(parts);
    }
  }

  /** Makes the detectors. */
  public Detectors(Lexicon lexicon) {
    this(lexicon, Set.of(), all());
  }

  /**
   * Makes detectors with some stages left out.
   *
   * @param left the stages left out
   * @param each one detector a kind
   */
  Detectors(Lexicon lexicon, Set<Stage> left, List<Detector> each) {
    this.left = Set.copyOf(left);
    this.words = new WordClasses(lexicon.forms()::stem);
    this.splitter = new ClauseSplitter(words);
    this.moves = new Moves(words);
    this.texts = new TextReader(lexicon.forms()::stem);
    this.points = new PointFinder(lexicon, texts, words);
    for (Detector detector : each) {
      detectors.put(detector.kind(), detector);
    }
  }

  /** Returns one detector of each kind. */
  static List<Detector> all() {
    return List.of(
        new IdentifyDetector(),
        new DefineDetector(),
        new DescribeDetector(),
        new ExplainDetector(),
        new PredictDetector(),
        new JustifyDetector(),
        new CompareDetector(),
        new CalculateDetector(),
        new ProposeDetector(),
        new EvaluateDetector());
  }

  /** Reads a response once, for all demands of its prompt. */
  public Reading read(Prompt prompt, Text text, Assignment assignment) {
    List<Reading.Placed> placed = new ArrayList<>();
    int index = 0;
    for (Stretch stretch : assignment.stretches()) {
      for (Clause clause : splitter.split(stretch.sentence(), index)) {
        Clause read = runs(Stage.ROLES) ? clause : clause.withRole(Clause.Role.MAIN);
        placed.add(new Reading.Placed(read, stretch.part()));
      }
      index++;
    }
    return new Reading(
        text, placed, readingOf(prompt), prompt.parts().stream().map(Part::label).toList(), this);
  }

  /**
   * Returns for each part of a prompt the share of its demands that some words alone would meet.
   */
  public double[] fit(Prompt prompt, Text text, Sentence words) {
    double[] fit = new double[prompt.parts().size()];
    for (int p = 0; p < fit.length; p++) {
      Part part = prompt.parts().get(p);
      Stretch stretch = new Stretch(words, Optional.of(part.label()));
      Reading reading = read(prompt, text, new Assignment(List.of(stretch), List.of(), List.of()));
      int asked = 0;
      int met = 0;
      for (int place = 0; place < part.demands().size(); place++) {
        if (detectors.containsKey(part.demands().get(place).kind())) {
          asked++;
          met += reading.judge(part, place).found() > 0 ? 1 : 0;
        }
      }
      fit[p] = asked == 0 ? 0.5 : (double) met / asked;
    }
    return fit;
  }

  private PromptReading readingOf(Prompt prompt) {
    PromptReading known = prompts.get(prompt);
    if (known != null) {
      return known;
    }
    Map<String, PartReading> parts = new HashMap<>();
    for (Part part : prompt.parts()) {
      parts.put(part.label(), new PartReading(prompt, part, texts, splitter, words));
    }
    for (PartReading part : parts.values()) {
      part.setApartFrom(
          parts.values().stream()
              .filter(other -> !other.part.label().equals(part.part.label()))
              .toList());
    }
    PromptReading reading = new PromptReading(subject(prompt, parts.values()), parts);
    if (prompts.size() < MOST_PROMPTS) {
      prompts.put(prompt, reading);
    }
    return reading;
  }

  private Subject subject(Prompt prompt, Collection<PartReading> parts) {
    Set<String> said = new HashSet<>();
    parts.forEach(part -> said.addAll(part.everything.words()));
    List<String> answers =
        prompt.parts().stream().flatMap(part -> part.modelAnswer().stream()).toList();
    for (String text : Stream.concat(Stream.of(prompt.text()), answers.stream()).toList()) {
      texts.read(text).sentences().forEach(s -> said.addAll(splitter.content(s.tokens())));
    }
    return new Subject(new Vocabulary(said));
  }

  /** Tells whether a stage is not left out. */
  boolean runs(Stage stage) {
    return !left.contains(stage);
  }

  PointFinder points() {
    return points;
  }

  Finding judge(PartReading part, int place, List<Clause> own, Text text) {
    Demand demand = part.part.demands().get(place);
    Detector detector = detectors.get(demand.kind());
    if (detector == null) {
      throw new IllegalArgumentException("no detector for " + demand.kind().word());
    }
    return detector.judge(new Case(part, place, own, moves, text));
  }
}

package everypart.analyzer.judge;

import everypart.analyzer.assign.Assignment;
import everypart.analyzer.assign.Stretch;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Reads responses for the judge: clauses, what the lexicon finds in them, and where they belong.
 */
final class Answers {
  private static final int MOST_PROMPTS = 1_000;

  private final Lexicon lexicon;
  private final TextReader texts;
  private final WordClasses words;
  private final ClauseSplitter splitter;
  private final Features features;
  private final PointFinder points;
  private final Map<Prompt, Map<String, PartWords>> prompts = new ConcurrentHashMap<>();

  Answers(Lexicon lexicon, TextReader texts) {
    this.lexicon = lexicon;
    this.texts = texts;
    this.words = new WordClasses(lexicon.forms()::stem);
    this.splitter = new ClauseSplitter(words);
    this.features = new Features(lexicon, words);
    this.points = new PointFinder(lexicon, texts, words);
  }

  Features features() {
    return features;
  }

  ResponseView read(Prompt prompt, Text text, Assignment assignment) {
    List<Answer.Said> said = new ArrayList<>();
    List<Clause> clauses = new ArrayList<>();
    List<Optional<String>> parts = new ArrayList<>();
    int index = 0;
    boolean single = prompt.parts().size() == 1;
    for (Stretch stretch : assignment.stretches()) {
      Sentence sentence = stretch.sentence();
      said.add(
          new Answer.Said(
              index,
              sentence,
              lexicon.cues(sentence),
              lexicon.concepts(sentence),
              stretch.byLabel()));
      Optional<String> part = single ? Optional.of(prompt.parts().get(0).label()) : stretch.part();
      for (Clause clause : splitter.split(sentence, index)) {
        clauses.add(clause);
        parts.add(part);
      }
      index++;
    }
    return new ResponseView(prompt, text.raw(), said, clauses, parts, partWords(prompt), features);
  }

  /** Looks for the points that the author listed for a demand, first in the text of its part. */
  Map<Point, Optional<Span>> points(
      Prompt prompt, Text text, Assignment assignment, Part part, Demand demand) {
    Map<Point, Optional<Span>> found = new LinkedHashMap<>();
    if (!demand.points().isEmpty()) {
      List<PointFinder.Looked> looked = new ArrayList<>();
      for (boolean own : List.of(true, false)) {
        for (Stretch stretch : assignment.stretches()) {
          if (stretch.part().filter(part.label()::equals).isPresent() == own) {
            looked.add(points.look(stretch.sentence()));
          }
        }
      }
      demand.points().forEach(point -> found.put(point, points.find(point, looked)));
    }
    return found;
  }

  /** Tells whether one of the author's points for a demand is in a text. */
  boolean hasPoint(Demand demand, Answer answer) {
    if (demand.points().isEmpty()) {
      return false;
    }
    List<PointFinder.Looked> looked =
        answer.sentences().stream().map(said -> points.look(said.sentence())).toList();
    return demand.points().stream().anyMatch(point -> points.find(point, looked).isPresent());
  }

  /** Returns the words of a part. */
  PartWords partWords(Prompt prompt, Part part) {
    return Objects.requireNonNull(partWords(prompt).get(part.label()));
  }

  private Map<String, PartWords> partWords(Prompt prompt) {
    Map<String, PartWords> known = prompts.get(prompt);
    if (known != null) {
      return known;
    }
    Map<String, PartWords> read = new HashMap<>();
    for (Part part : prompt.parts()) {
      read.put(part.label(), new PartWords(prompt, part, texts, splitter, lexicon, words));
    }
    if (prompts.size() < MOST_PROMPTS) {
      prompts.put(prompt, read);
    }
    return read;
  }
}

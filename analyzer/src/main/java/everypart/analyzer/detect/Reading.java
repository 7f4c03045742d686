package everypart.analyzer.detect;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.Token;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** A response as the detectors see it, read once and asked once a demand. */
public final class Reading {
  /**
   * A clause and where it belongs.
   *
   * @param part the label of the part it answers; empty when it answers none
   */
  record Placed(Clause clause, Optional<String> part) {}

  private static final Set<String> LABEL_WORDS = Set.of("part", "question", "number", "answer");

  /** Strength of the signs where the text is off the subject, or the prompt's own. */
  private static final double OFF = 0.05;

  private final Text text;
  private final List<Placed> clauses;
  private final Map<Integer, List<Clause>> bySentence;
  private final Map<String, PartReading> parts;
  private final boolean offSubject;
  private final List<String> labels;
  private final Detectors detectors;

  Reading(
      Text text,
      List<Placed> clauses,
      Detectors.PromptReading prompt,
      List<String> labels,
      Detectors detectors) {
    this.text = text;
    this.clauses = List.copyOf(clauses);
    this.bySentence =
        clauses.stream().map(Placed::clause).collect(Collectors.groupingBy(Clause::sentenceIndex));
    this.parts = prompt.parts();
    this.offSubject =
        detectors.runs(Stage.SUBJECT)
            && prompt.subject().isLeftBy(clauses.stream().map(Placed::clause).toList());
    this.labels = List.copyOf(labels);
    this.detectors = detectors;
  }

  /**
   * Looks for what a demand of a part asks for: in the text of the part, then in the rest of the
   * response, where an answer counts if its words show that it belongs to the part.
   *
   * @param place where the demand stands among the part's, counted from 0
   */
  public Finding judge(Part part, int place) {
    PartReading reading = reading(part);
    List<Clause> own = new ArrayList<>();
    List<Clause> rest = new ArrayList<>();
    boolean copied = false;
    for (Placed placed : clauses) {
      if (detectors.runs(Stage.COPIES) && reading.isCopied(placed.clause().sentence())) {
        copied |= placed.part().filter(part.label()::equals).isPresent();
        continue;
      }
      if (isLabel(placed.clause(), part)) {
        continue;
      }
      boolean pointed = pointedAt(placed.clause()).filter(part.label()::equals).isPresent();
      if (pointed || placed.part().filter(part.label()::equals).isPresent()) {
        own.add(placed.clause());
      } else if (reading.isNamedIn(placed.clause().sentence())) {
        rest.add(placed.clause());
      }
    }
    if (offSubject) {
      return new Finding(
          0, List.of(), List.of("the text has hardly a word in common with the question"), OFF);
    }
    if (copied && own.isEmpty() && rest.isEmpty()) {
      return new Finding(0, List.of(), List.of("the question's wording is handed back"), OFF);
    }
    Finding here = detectors.judge(reading, place, share(reading, place, own), text);
    if (here.found() > 0 || rest.isEmpty() || !detectors.runs(Stage.ELSEWHERE)) {
      return here;
    }
    Finding there = detectors.judge(reading, place, share(reading, place, rest), text);
    if (there.found() == 0) {
      return here;
    }
    List<String> why = new ArrayList<>(there.why());
    why.add("it stands outside the text of this part");
    double strength = 0.5 + (there.strength() - 0.5) / 2;
    return new Finding(there.found(), there.evidence(), why, Math.max(0.5, strength));
  }

  private List<Clause> share(PartReading reading, int place, List<Clause> clauses) {
    return detectors.runs(Stage.SHARES) ? reading.shareOf(place, clauses) : clauses;
  }

  /** Looks for the points that the author listed for a demand, in the whole response. */
  public Map<Point, Optional<Span>> points(Part part, Demand demand) {
    List<Sentence> own = new ArrayList<>();
    List<Sentence> rest = new ArrayList<>();
    for (Placed placed : clauses) {
      List<Sentence> side = placed.part().filter(part.label()::equals).isPresent() ? own : rest;
      Sentence sentence = placed.clause().sentence();
      if (side.isEmpty() || !side.get(side.size() - 1).equals(sentence)) {
        side.add(sentence);
      }
    }
    own.addAll(rest);
    Map<Point, Optional<Span>> found = new LinkedHashMap<>();
    for (Point point : demand.points()) {
      found.put(point, detectors.points().find(point, own));
    }
    return found;
  }

  /** The writer's label, standing before what it labels, is no part of the answer. */
  private boolean isLabel(Clause clause, Part part) {
    if (parts.size() == 1 || clause.size() > 2 || clause.from() > 1) {
      return false;
    }
    String last = clause.tokens().get(clause.size() - 1).form();
    boolean named = clause.size() == 1 || LABEL_WORDS.contains(clause.first().form());
    int number = labels.indexOf(part.label()) + 1;
    return named && (last.equals(part.label()) || last.equals(String.valueOf(number)));
  }

  /** "that is for part b": the clause says which part it answers. */
  private Optional<String> pointedAt(Clause clause) {
    List<Clause> same = bySentence.getOrDefault(clause.sentenceIndex(), List.of());
    Optional<String> running = Optional.empty();
    for (int i = 0; i < same.size(); i++) {
      Optional<String> reference = reference(same.get(i));
      boolean trailing = reference.isPresent() && i > 0 && i == same.size() - 1;
      if (trailing && running.isEmpty()) {
        return reference;
      }
      running = reference.isPresent() ? reference : running;
      if (same.get(i).equals(clause) && running.isPresent()) {
        return running;
      }
    }
    return Optional.empty();
  }

  private Optional<String> reference(Clause clause) {
    List<Token> tokens = clause.tokens();
    for (int i = 0; i + 1 < tokens.size(); i++) {
      if (!tokens.get(i).form().equals("for")) {
        continue;
      }
      int at = tokens.get(i + 1).form().equals("part") ? i + 2 : i + 1;
      boolean ends = at == tokens.size() - 1;
      if (at < tokens.size() && ends && labels.contains(tokens.get(at).form())) {
        return Optional.of(tokens.get(at).form());
      }
    }
    return Optional.empty();
  }

  private PartReading reading(Part part) {
    PartReading reading = parts.get(part.label());
    if (reading == null) {
      throw new IllegalArgumentException("the prompt has no part \"" + part.label() + "\"");
    }
    return reading;
  }
}

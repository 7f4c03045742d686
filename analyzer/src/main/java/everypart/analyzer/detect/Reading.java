package everypart.analyzer.detect;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.text.Span;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.Token;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** A response as the detectors see it, read once and asked once a demand. */
public final class Reading {
  /**
   * A clause and where it belongs.
   *
   * @param part the label of the part it answers; empty when it answers none
   */
  record Placed(Clause clause, Optional<String> part) {}

  private static final Set<String> LABEL_WORDS = Set.of("part", "question", "number", "answer");

  private static final Set<String> REFERS = Set.of("for", "in", "to", "with");

  /** "See above", "answered in (b)": the answer is where something else was answered. */
  private static final Pattern POINTS_AWAY =
      Pattern.compile(
          "\\b(?:(?:see|said|answered|explained|mentioned|stated|written|given) (?:it )?(?:above|before|below|earlier|already)"
              + "|(?:see|as in|same as(?: in)?) (?:my )?(?:answer|part|question|\\())",
          Pattern.CASE_INSENSITIVE);

  /** Strength of the signs where the text is off the subject, or the prompt's own. */
  private static final double OFF = 0.05;

  private final Text text;
  private final List<Placed> clauses;
  private final List<Optional<String>> pointed;
  private final Map<String, Sides> sides = new HashMap<>();
  private final Map<Integer, PointFinder.Looked> looked = new HashMap<>();
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
    this.parts = prompt.parts();
    this.offSubject =
        detectors.runs(Stage.SUBJECT)
            && prompt.subject().isLeftBy(clauses.stream().map(Placed::clause).toList());
    this.labels = List.copyOf(labels);
    this.pointed = pointed(this.clauses);
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
    if (offSubject) {
      return new Finding(
          0, List.of(), List.of("the text has hardly a word in common with the question"), OFF);
    }
    Sides side = sides.computeIfAbsent(part.label(), label -> sides(reading));
    boolean copied = side.copied();
    List<Clause> own = side.own();
    List<Clause> rest = side.rest();
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

  /**
   * What a part finds in the response.
   *
   * @param own the clauses that belong to it
   * @param rest those of other parts, or of none, in whose sentences it is named; all of them where
   *     its own text points away
   * @param copied whether some of its text only hands the prompt's wording back
   */
  private record Sides(List<Clause> own, List<Clause> rest, boolean copied) {}

  private Sides sides(PartReading reading) {
    Part part = reading.part;
    List<Clause> own = new ArrayList<>();
    List<Clause> rest = new ArrayList<>();
    List<Clause> others = new ArrayList<>();
    boolean copied = false;
    boolean away = false;
    int sentence = -1;
    boolean handedBack = false;
    boolean named = false;
    for (int i = 0; i < clauses.size(); i++) {
      Clause clause = clauses.get(i).clause();
      boolean placed = clauses.get(i).part().filter(part.label()::equals).isPresent();
      if (clause.sentenceIndex() != sentence) {
        sentence = clause.sentenceIndex();
        handedBack = detectors.runs(Stage.COPIES) && reading.isCopied(clause.sentence());
        named = reading.isNamedIn(clause.sentence());
        away |= placed && POINTS_AWAY.matcher(clause.sentence().span().of(text.raw())).find();
      }
      if (handedBack) {
        copied |= placed;
        continue;
      }
      if (isLabel(clause, part)) {
        continue;
      }
      if (placed || pointed.get(i).filter(part.label()::equals).isPresent()) {
        own.add(clause);
      } else {
        others.add(clause);
        if (named) {
          rest.add(clause);
        }
      }
    }
    return new Sides(own, away ? others : rest, copied);
  }

  private List<Clause> share(PartReading reading, int place, List<Clause> clauses) {
    return detectors.runs(Stage.SHARES) ? reading.shareOf(place, clauses) : clauses;
  }

  /** Looks for the points that the author listed for a demand, in the whole response. */
  public Map<Point, Optional<Span>> points(Part part, Demand demand) {
    if (demand.points().isEmpty()) {
      return Map.of();
    }
    List<PointFinder.Looked> own = new ArrayList<>();
    List<PointFinder.Looked> rest = new ArrayList<>();
    int sentence = -1;
    for (Placed placed : clauses) {
      Clause clause = placed.clause();
      if (clause.sentenceIndex() != sentence) {
        sentence = clause.sentenceIndex();
        (placed.part().filter(part.label()::equals).isPresent() ? own : rest)
            .add(
                looked.computeIfAbsent(
                    sentence, index -> detectors.points().look(clause.sentence())));
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

  /**
   * Returns for each clause the part that its sentence says it answers. "For b, ... and ...": the
   * clauses answer the part that was named last; "..., that is for part b": the whole sentence
   * does, where only its end names a part.
   */
  private List<Optional<String>> pointed(List<Placed> clauses) {
    List<Optional<String>> pointed = new ArrayList<>(clauses.size());
    int from = 0;
    Optional<String> running = Optional.empty();
    for (int i = 0; i < clauses.size(); i++) {
      Clause clause = clauses.get(i).clause();
      if (i > from && clause.sentenceIndex() != clauses.get(from).clause().sentenceIndex()) {
        from = i;
        running = Optional.empty();
      }
      Optional<String> named = reference(clause);
      boolean last =
          i + 1 == clauses.size()
              || clauses.get(i + 1).clause().sentenceIndex() != clause.sentenceIndex();
      if (last && i > from && named.isPresent() && running.isEmpty()) {
        for (int before = from; before < i; before++) {
          pointed.set(before, named);
        }
      }
      running = named.isPresent() ? named : running;
      pointed.add(running);
    }
    return pointed;
  }

  /** Reads "for part b", "in (c)" or "for d": a reference to a part inside an answer. */
  private Optional<String> reference(Clause clause) {
    List<Token> tokens = clause.sentence().tokens();
    for (int i = clause.from(); i < clause.to() && i + 1 < tokens.size(); i++) {
      if (!REFERS.contains(tokens.get(i).form())) {
        continue;
      }
      int at = i + 1;
      boolean named = LABEL_WORDS.contains(tokens.get(at).form());
      at += named ? 1 : 0;
      boolean bracketed = at < tokens.size() && tokens.get(at).form().equals("(");
      at += bracketed ? 1 : 0;
      if (at >= tokens.size() || !labels.contains(tokens.get(at).form())) {
        continue;
      }
      String label = tokens.get(at).form();
      boolean ends = at == clause.to() - 1 && tokens.get(i).form().equals("for");
      boolean word = label.equals("a") || label.equals("i") || Character.isDigit(label.charAt(0));
      if (named || bracketed || ends || !word) {
        return Optional.of(label);
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

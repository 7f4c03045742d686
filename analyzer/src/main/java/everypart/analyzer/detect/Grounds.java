package everypart.analyzer.detect;

import everypart.analyzer.detect.Clause.Role;
import everypart.analyzer.detect.WordClasses.Form;
import everypart.analyzer.detect.WordClasses.Stem;
import everypart.analyzer.prompt.Demand;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/**
 * Looks for what holds a claim up or makes a thing happen: the move that justify and explain have
 * in common. A ground says something that neither the claim nor the question said.
 */
final class Grounds {
  /** Weight of a word that only the set-up of the prompt used. */
  private static final double FROM_SETUP = 0.4;

  private static final double DIRECTION = 0.5;
  private static final double NUMBER = 0.5;

  /** "Smaller than the sand": a property that sets two things against each other is a reason. */
  private static final double COMPARED = 0.8;

  /** A claim of so many words says too little for a reason to be told from it. */
  private static final int BARE = 2;

  private static final Set<DemandKind> NO_CLAIM =
      EnumSet.of(DemandKind.JUSTIFY, DemandKind.EXPLAIN);

  private Grounds() {}

  /**
   * A clause and how far it goes beyond what was said.
   *
   * @param clause the clause
   * @param weight 1 and more is a ground
   */
  record Scored(Clause clause, double weight) {}

  /** Returns the kind of the demand whose answer is to be grounded, the nearest one before. */
  static Optional<DemandKind> claimKind(Case given) {
    List<Demand> before = given.part().part.demands().subList(0, given.place());
    for (int i = before.size() - 1; i >= 0; i--) {
      if (!NO_CLAIM.contains(before.get(i).kind())) {
        return Optional.of(before.get(i).kind());
      }
    }
    return Optional.empty();
  }

  /** Returns the clauses that state the claim. */
  static List<Clause> claims(Case given) {
    Optional<DemandKind> kind = claimKind(given);
    List<Clause> claims = new ArrayList<>();
    if (kind.isEmpty()) {
      return claims;
    }
    Moves moves = given.moves();
    for (Clause clause : given.own()) {
      if (clause.role() == Role.GROUND) {
        continue;
      }
      boolean first = claims.isEmpty();
      boolean states =
          moves.claims(given.part(), kind.orElseThrow(), clause)
              && !given.part().speaksOf(given.place(), clause);
      boolean goesOn =
          !first
              && !clause.isMarked()
              && clause.role() != Role.RESULT
              && claims.get(claims.size() - 1).sentenceIndex() == clause.sentenceIndex()
              && clause.size() <= 6
              && !moves.hasSubject(clause)
              && kind.orElseThrow() != DemandKind.IDENTIFY;
      boolean future =
          states && kind.orElseThrow() == DemandKind.PREDICT && moves.has(clause, Form.FUTURE);
      if ((states && first) || goesOn || future) {
        claims.add(clause);
      }
    }
    return claims;
  }

  /** Returns the clauses that make up enough of a ground. */
  static List<Clause> enough(List<Scored> scored, double least) {
    return scored.stream().filter(each -> each.weight() >= least).map(Scored::clause).toList();
  }

  /** Returns how clear the signs of a ground are: 0.5 where the best weighs 1. */
  static double strength(List<Scored> scored) {
    return strength(scored.stream().mapToDouble(Scored::weight).max().orElse(0));
  }

  /** Returns how clear the signs are of a move that weighs this much, where 1 is just enough. */
  static double strength(double weight) {
    double square = weight * weight;
    return Math.min(0.98, Math.max(0.02, square / (1 + square)));
  }

  /**
   * "There is no ...", "their ... are different": that something is absent or differs may be the
   * cause, unless the question says so.
   */
  private static boolean isOff(Moves moves, Predicate<String> known, Clause clause) {
    return (moves.lacks(clause) || Moves.has(clause, "different", "differs", "differ"))
        && clause.content().stream().anyMatch(known.negate());
  }

  /**
   * Weighs the clauses as grounds, the heaviest first.
   *
   * @param data whether data and comparisons count by themselves, as they do where a claim is to be
   *     justified
   */
  static List<Scored> scored(Case given, List<Clause> claims, boolean data) {
    Vocabulary ask = given.part().ask;
    PartReading part = given.part();
    Moves moves = given.moves();
    Set<String> knownWords = new HashSet<>(part.options);
    Set<String> knownNumbers = new HashSet<>(part.askNumbers);
    Set<Stem> knownDirections = EnumSet.noneOf(Stem.class);
    knownDirections.addAll(part.directions);
    for (Clause claim : claims) {
      knownWords.addAll(claim.content());
      knownNumbers.addAll(claim.numbers());
      knownDirections.addAll(moves.directions(claim));
    }
    if (moves.speaksOfPace(part)) {
      knownDirections.addAll(EnumSet.of(Stem.UP, Stem.DOWN));
    }
    Vocabulary claimWords = new Vocabulary(knownWords);
    Predicate<String> known = word -> ask.has(word) || claimWords.has(word);
    boolean bare = claims.size() == 1 && claims.get(0).size() <= BARE;
    boolean unsure = given.own().stream().anyMatch(moves::isUnsure);
    Set<Clause> claimed = Collections.newSetFromMap(new IdentityHashMap<>());
    claimed.addAll(claims);
    Set<Integer> claiming = new HashSet<>();
    claims.forEach(claim -> claiming.add(claim.sentenceIndex()));
    Map<Integer, Double> together = new HashMap<>();
    List<Scored> scored = new ArrayList<>();
    for (Clause clause : given.own()) {
      if (claimed.contains(clause)
          || moves.isPadding(clause)
          || (data && moves.isOpen(clause))
          || clause.cut()) {
        continue;
      }
      boolean marked = clause.isMarked();
      if (!marked
          && (unsure
              || moves.has(clause, Form.NORM)
              || (clause.first().form().equals("to") && given.own().size() > 1))) {
        continue;
      }
      double words = 0;
      boolean alone = part.part.demands().size() == 1;
      boolean compares = data || marked || alone;
      Set<Stem> named = EnumSet.noneOf(Stem.class);
      if (compares) {
        named.addAll(moves.directions(clause, part.everything));
        named.removeAll(knownDirections);
      }
      boolean relates =
          !named.isEmpty()
              || (data
                  && (!knownNumbers.containsAll(clause.numbers())
                      || moves.has(clause, Form.NEGATION)
                      || moves.setsApart(part, clause)))
              || (!data && (marked || alone) && isOff(moves, known, clause));
      boolean retold =
          part.retells(clause, known)
              && !((marked || alone) && (relates || (marked && (bare || part.wantsKnowing))));
      boolean judging = marked && moves.has(clause, Form.JUDGE);
      for (String word : clause.content()) {
        if (!known.test(word)) {
          words +=
              part.setup.has(word)
                  ? (retold || judging ? 0 : (data || part.wantsKnowing) && marked ? 1 : FROM_SETUP)
                  : 1;
        }
      }
      words += (moves.setsAgainst(clause) && marked ? COMPARED : DIRECTION) * named.size();
      if (marked
          && moves.directions(clause).isEmpty()
          && moves.setsAgainst(clause)
          && moves.grades(part, clause)) {
        words += COMPARED;
      }
      if ((data && marked && moves.denies(part, clause))
          || (!data && (marked || alone) && isOff(moves, known, clause))) {
        words += DIRECTION;
      }
      for (String number : clause.numbers()) {
        words += data && !knownNumbers.contains(number) ? NUMBER : 0;
      }
      if (data && marked && moves.setsApart(part, clause)) {
        words += DIRECTION;
      }
      double least =
          marked
              ? (data ? 0.5 : 0.8)
              : (bare && clause.size() >= 3) || claims.isEmpty() ? 0.9 : 1.5;
      if (moves.tellsPurpose(part, clause)
          || moves.tellsWay(part, clause)
          || moves.goesTogether(clause)) {
        words = Math.max(words, least);
      }
      if (data && !marked && !claiming.contains(clause.sentenceIndex())) {
        // A sentence of its own behind the claim is one ground, however many clauses it has.
        words = together.merge(clause.sentenceIndex(), words, Double::sum);
      }
      scored.add(new Scored(clause, words / least));
    }
    scored.sort(Comparator.comparingDouble(Scored::weight).reversed());
    return scored;
  }
}

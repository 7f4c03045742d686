package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.Token;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import everypart.lexicon.TaskVerbs;
import everypart.lexicon.WordWeights;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Aligns sentences to parts: the path through a table of sentences and parts that scores best, by
 * the words a sentence shares with a part, what ties it to the sentence before, and a preference
 * for the prompt's order. The work grows with the number of sentences times the square of the
 * number of parts.
 */
final class Alignment {
  private static final Pattern CHOICE =
      Pattern.compile(
          "(?i)(?:yes|no|nope|yeah|i (?:do |don't |do not )?(?:agree|disagree)|both|neither|[a-z](?:[.,]|$)|the same|same|greater|less|more|i (?:choose|chose|pick|picked))\\b");

  /** More shared words than this with the sentence before tie no closer to it. Chosen by eye. */
  private static final double MOST_SHARED = 3;

  /**
   * As long as the table stays below this many cells, the alignment minds which parts have text
   * already; beyond, only where the last sentence stands.
   */
  private static final long MOST_CELLS = 1 << 22;

  private final AlignmentSettings settings;
  private final WordWeights weights;
  private final Set<String> ties;
  private final Set<String> outcomes;
  private final Set<String> working;
  private final Set<String> compares;

  Alignment(AlignmentSettings settings, Lexicon lexicon) {
    this.settings = settings;
    this.weights = lexicon.weights();
    TaskVerbs words = lexicon.taskVerbs();
    this.ties = Set.copyOf(words.list("leansBack"));
    this.outcomes = Set.copyOf(words.list("tellsOutcome"));
    this.working = Set.copyOf(words.list("workingSign"));
    this.compares = Set.copyOf(words.list("setsBeside"));
  }

  /**
   * Returns for each unit the place of its part, or the number of parts for none.
   *
   * @param matches for each unit and part, what {@link #match} says
   * @param bonus for each unit and part, what speaks for it beyond its words
   */
  int[] align(List<Unit> units, int parts, double[][] matches, double[][] bonus) {
    int n = units.size();
    int none = parts;
    if (n == 0) {
      return new int[0];
    }
    List<Set<String>> stems = stemsByPiece(units);
    // A state is the part of the last sentence and the set of parts that have text so far.
    boolean counted = none < 16 && (long) n * (none + 1) * (1L << none) <= MOST_CELLS;
    int sets = counted ? 1 << none : 1;
    int states = (none + 1) * sets;
    long pieces = units.stream().filter(unit -> !unit.goesOn()).count();
    double length = settings.stayLength() * Math.log((double) pieces / none);
    boolean blocks = units.stream().filter(unit -> unit.words().lineStart()).count() > 1;
    double[] best = new double[states];
    int[][] from = new int[n][states];
    for (int i = 0; i < n; i++) {
      Sentence sentence = units.get(i).words();
      boolean inner = units.get(i).goesOn();
      boolean lineStart = sentence.lineStart();
      double[] match = matches[i];
      double stay =
          i == 0 || inner
              ? 0
              : length
                  + stay(
                      sentence,
                      stems.get(units.get(i).piece()),
                      stems.get(units.get(i - 1).piece()),
                      blocks);
      double[] next = new double[states];
      Arrays.fill(next, Double.NEGATIVE_INFINITY);
      for (int to = 0; to <= none; to++) {
        double here = to == none ? 0 : match[to] + bonus[i][to];
        int bit = to < none && counted ? 1 << to : 0;
        if (i == 0) {
          next[to * sets + bit] = here + (bit > 0 ? settings.cover() : 0);
          continue;
        }
        for (int prior = 0; prior <= none; prior++) {
          double moved = here + move(prior, to, none, stay, lineStart);
          if (inner && prior != to) {
            moved -= settings.inSentence() + (blocks ? settings.stayInBlock() : 0);
          }
          for (int set = 0; set < sets; set++) {
            if (best[prior * sets + set] == Double.NEGATIVE_INFINITY) {
              continue;
            }
            double score = best[prior * sets + set] + moved;
            if (bit > 0 && (set & bit) == 0) {
              score += settings.cover();
            } else if (bit > 0 && prior != to) {
              score -= settings.again();
            }
            int state = to * sets + (set | bit);
            if (score > next[state]) {
              next[state] = score;
              from[i][state] = prior * sets + set;
            }
          }
        }
      }
      best = next;
    }
    int[] path = new int[n];
    int end = 0;
    for (int state = 1; state < states; state++) {
      if (best[state] > best[end]) {
        end = state;
      }
    }
    for (int i = n - 1; i >= 0; i--) {
      path[i] = end / sets;
      end = from[i][end];
    }
    return path;
  }

  private static List<Set<String>> stemsByPiece(List<Unit> units) {
    List<Set<String>> stems = new ArrayList<>();
    for (Unit unit : units) {
      if (unit.goesOn()) {
        stems.get(stems.size() - 1).addAll(PartProfile.stems(unit.words()));
      } else {
        stems.add(PartProfile.stems(unit.words()));
      }
    }
    return stems;
  }

  private double move(int from, int to, int none, double stay, boolean lineStart) {
    if (from == to) {
      return stay;
    }
    if (from == none || to == none || to > from) {
      return 0;
    }
    return lineStart ? -settings.back() : -settings.backInLine();
  }

  private double stay(Sentence sentence, Set<String> stems, Set<String> before, boolean blocks) {
    double stay = blocks ? settings.stayInBlock() : 0;
    if (sentence.lineStart()) {
      stay = settings.stayOverBreak();
    }
    if (ties.contains(sentence.form(0))) {
      stay += settings.tie();
    }
    double shared = 0;
    for (String stem : stems) {
      shared += before.contains(stem) ? weights.weight(stem) : 0;
    }
    return stay + settings.cohesion() * Math.min(shared, MOST_SHARED);
  }

  /** Returns what speaks for each part in the words of a sentence, taken by itself. */
  double[] match(String raw, Sentence sentence, List<PartProfile> parts) {
    return match(raw, Unit.whole(sentence, 0), norm(sentence), parts);
  }

  /** Returns the length of a sentence as a vector of its words. */
  private double norm(Sentence sentence) {
    double norm = 0;
    for (String stem : PartProfile.stems(sentence)) {
      double weight = weights.weight(stem);
      norm += weight * weight;
    }
    return Math.sqrt(Math.max(norm, 1));
  }

  /**
   * Returns what speaks for each part in the words of a unit.
   *
   * @param norm the length of the piece, so that words weigh as they do in the whole
   */
  private double[] match(String raw, Unit unit, double norm, List<PartProfile> parts) {
    Sentence sentence = unit.words();
    Set<String> stems = PartProfile.stems(sentence);
    double[] match = new double[parts.size()];
    boolean choice = CHOICE.matcher(raw).region(sentence.start(), sentence.end()).lookingAt();
    boolean outcome = holds(sentence, outcomes);
    long numbers = sentence.tokens().stream().filter(Token::isNumber).count();
    boolean works = numbers > 1 && holds(sentence, working);
    boolean relates = holds(sentence, compares);
    Set<ResponseForm> forms = ResponseForm.takenBy(raw, sentence.start(), sentence.end());
    Set<String> persons = PartProfile.persons(sentence);
    for (int p = 0; p < match.length; p++) {
      PartProfile part = parts.get(p);
      double sum = 0;
      for (String stem : stems) {
        double told =
            part.words().getOrDefault(stem, 0.0)
                + (part.answer().isEmpty()
                    ? 0
                    : settings.modelWeight() * part.answer().getOrDefault(stem, 0.0));
        if (told != 0) {
          sum += told * weights.weight(stem);
        }
      }
      match[p] = sum / norm;
      if (choice && part.choice()) {
        match[p] += settings.choiceFits();
      }
      if (outcome && part.outcome()) {
        match[p] += settings.modalFits();
      }
      if (numbers == 0 && !unit.goesOn() && part.kinds().equals(Set.of(DemandKind.CALCULATE))) {
        match[p] -= settings.noNumber();
      }
      if (works && part.kinds().contains(DemandKind.CALCULATE)) {
        match[p] += settings.workingFits();
      }
      if (relates && part.kinds().contains(DemandKind.COMPARE)) {
        match[p] += settings.comparisonFits();
      }
      for (ResponseForm form : forms) {
        match[p] += part.forms().contains(form) ? settings.formFits() : 0;
      }
      for (String person : persons) {
        match[p] += part.persons().contains(person) ? settings.person() : -settings.person();
      }
    }
    return match;
  }

  private static boolean holds(Sentence sentence, Set<String> words) {
    for (Token token : sentence.tokens()) {
      if (words.contains(token.form())) {
        return true;
      }
    }
    return false;
  }

  /**
   * Returns what speaks for each part in the words of each unit. Over the clauses of a piece it
   * adds up to what the piece would get.
   */
  double[][] matches(String raw, List<Unit> units, List<Sentence> pieces, List<PartProfile> parts) {
    double[][] matches = new double[units.size()][];
    int next = 0;
    while (next < units.size()) {
      int first = next;
      Sentence piece = pieces.get(units.get(first).piece());
      double norm = norm(piece);
      double[] rest = match(raw, Unit.whole(piece, 0), norm, parts);
      if (units.get(first).share() == 1) {
        matches[next++] = rest;
        continue;
      }
      do {
        matches[next] = match(raw, units.get(next), norm, parts);
        for (int p = 0; p < rest.length; p++) {
          rest[p] -= matches[next][p];
        }
        next++;
      } while (next < units.size() && units.get(next).goesOn());
      for (int i = first; i < next; i++) {
        for (int p = 0; p < rest.length; p++) {
          matches[i][p] += rest[p] * units.get(i).share();
        }
      }
    }
    return matches;
  }
}

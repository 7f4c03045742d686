package everypart.lexicon;

import everypart.lexicon.PatternPiece.Behind;
import everypart.lexicon.PatternPiece.Check;
import everypart.lexicon.PatternPiece.Gap;
import everypart.lexicon.PatternPiece.Mark;
import everypart.lexicon.PatternPiece.NoneAfter;
import everypart.lexicon.PatternPiece.NoneBefore;
import everypart.lexicon.PatternPiece.Slot;
import everypart.lexicon.PatternPiece.Start;
import everypart.lexicon.PatternPiece.Word;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * All cue patterns in one automaton.
 *
 * <p>The patterns are laid into a trie whose edges are words, shapes, gaps and looks at a
 * neighbour. Most tokens begin no cue and cost one look-up; the others are followed through the
 * trie as far as it goes. Of the matches of one type the longest counts: "as a result of" hides
 * "result of".
 */
final class CueMatcher {
  private static final class Node {
    final Map<String, List<Node>> byForm = new HashMap<>();
    final Map<WordShape, List<Node>> byShape = new LinkedHashMap<>();
    final Map<PatternPiece, Node> byPiece = new LinkedHashMap<>();
    final List<CuePattern> ends = new ArrayList<>();

    /** Returns the node that a piece leads to, a new one when no pattern led there before. */
    Node next(PatternPiece piece) {
      Node known = byPiece.get(piece);
      if (known != null) {
        return known;
      }
      Node made = new Node();
      byPiece.put(piece, made);
      if (piece instanceof Word word) {
        for (String form : word.test().forms()) {
          byForm.computeIfAbsent(form, key -> new ArrayList<>()).add(made);
        }
        for (WordShape shape : word.test().shapes()) {
          byShape.computeIfAbsent(shape, key -> new ArrayList<>()).add(made);
        }
      }
      return made;
    }

    /** Leaves only the edges that take no word: those that do are in the maps. */
    void close() {
      List<Node> nodes = List.copyOf(byPiece.values());
      byPiece.keySet().removeIf(piece -> piece instanceof Word);
      nodes.forEach(Node::close);
    }
  }

  /** A way through the trie that is being followed from one token. */
  private static final class Walk {
    final WordSequence words;
    final List<FamilyFound> found = new ArrayList<>(0);
    Marks marks = Marks.NONE;
    int from;

    Walk(WordSequence words) {
      this.words = words;
    }

    /**
     * Adds a match; of the ways one pattern is met from one token, the first has the shortest gaps.
     */
    void add(FamilyFound match) {
      for (int i = found.size() - 1; i >= 0 && found.get(i).from == match.from; i--) {
        if (found.get(i).pattern.equals(match.pattern)) {
          return;
        }
      }
      found.add(match);
    }
  }

  /** The places that a pattern has marked so far; -1 for those it has not. */
  private record Marks(int causeFrom, int causeTo, int effectFrom, int effectTo) {
    static final Marks NONE = new Marks(-1, -1, -1, -1);

    Marks with(Slot slot, int at) {
      return switch (slot) {
        case CAUSE_FROM -> new Marks(at, causeTo, effectFrom, effectTo);
        case CAUSE_TO -> new Marks(causeFrom, at, effectFrom, effectTo);
        case EFFECT_FROM -> new Marks(causeFrom, causeTo, at, effectTo);
        case EFFECT_TO -> new Marks(causeFrom, causeTo, effectFrom, at);
      };
    }
  }

  private record FamilyFound(CuePattern pattern, int from, int to, Marks marks) {
    boolean hides(FamilyFound other) {
      return pattern.type() == other.pattern.type()
          && from <= other.from
          && to >= other.to
          && (from != other.from || to != other.to);
    }
  }

  private final Node root = new Node();
  private final Set<String> forms = new HashSet<>();
  private final WordLists lists;
  private final Clauses clauses;

  /**
   * Compiles the patterns.
   *
   * @throws LexiconException naming file and line of a pattern that is not well formed
   */
  CueMatcher(List<CuePattern> patterns, PatternParser parser, WordLists lists) {
    this.lists = lists;
    this.clauses = new Clauses(lists);
    for (CuePattern pattern : patterns) {
      try {
        for (List<PatternPiece> way : parser.parse(pattern.pattern())) {
          add(pattern, way);
        }
      } catch (IllegalArgumentException e) {
        throw new LexiconException(
            pattern.file(),
            pattern.line(),
            "pattern \"" + pattern.pattern() + "\": " + e.getMessage());
      }
    }
    root.close();
  }

  private void add(CuePattern pattern, List<PatternPiece> way) {
    List<PatternPiece> behind = new ArrayList<>();
    Node node = root;
    boolean begun = false;
    for (PatternPiece piece : way) {
      if (!begun && !(piece instanceof Word) && !(piece instanceof Mark)) {
        behind.add(new Behind(piece));
        continue;
      }
      node = node.next(piece);
      if (piece instanceof Word word) {
        forms.addAll(word.test().forms());
      }
      if (!begun && piece instanceof Word) {
        begun = true;
        for (PatternPiece look : behind) {
          node = node.next(look);
        }
      }
    }
    node.ends.add(pattern);
  }

  /** Returns the words that patterns take exactly. */
  Set<String> forms() {
    return forms;
  }

  /** Returns the cues in a run of tokens, by where they begin, then longest first. */
  List<CueMatch> match(WordSequence words) {
    Walk walk = new Walk(words);
    for (int i = 0; i < words.size(); i++) {
      walk.from = i;
      take(root, i, walk);
      for (Map.Entry<PatternPiece, Node> edge : root.byPiece.entrySet()) {
        if (edge.getKey() instanceof Mark mark) {
          walk.marks = Marks.NONE.with(mark.slot(), i);
          take(edge.getValue(), i, walk);
          walk.marks = Marks.NONE;
        }
      }
    }
    if (walk.found.isEmpty()) {
      return List.of();
    }
    walk.found.sort(
        Comparator.comparingInt((FamilyFound f) -> f.from)
            .thenComparingInt(f -> -f.to)
            .thenComparing(f -> f.pattern.type()));
    List<CueMatch> matches = new ArrayList<>(walk.found.size());
    FamilyFound last = null;
    // What hides a match stands before it in this order, so the one that reaches furthest tells.
    Map<CueType, FamilyFound> furthest = new EnumMap<>(CueType.class);
    for (FamilyFound found : walk.found) {
      FamilyFound further =
          furthest.merge(
              found.pattern.type(), found, (before, now) -> now.to > before.to ? now : before);
      if (further.hides(found)
          || (last != null
              && last.from == found.from
              && last.to == found.to
              && last.pattern.type() == found.pattern.type())) {
        continue;
      }
      last = found;
      matches.add(matchOf(found, words));
    }
    return List.copyOf(matches);
  }

  private void take(Node node, int at, Walk walk) {
    if (at >= walk.words.size()) {
      return;
    }
    List<Node> byForm = node.byForm.get(walk.words.form(at));
    if (byForm != null) {
      follow(byForm, at + 1, walk);
    }
    for (Map.Entry<WordShape, List<Node>> edge : node.byShape.entrySet()) {
      if (edge.getKey().at(walk.words, at, lists)) {
        follow(edge.getValue(), at + 1, walk);
      }
    }
  }

  private void follow(List<Node> nodes, int at, Walk walk) {
    for (Node node : nodes) {
      visit(node, at, walk);
    }
  }

  private void visit(Node node, int at, Walk walk) {
    for (CuePattern pattern : node.ends) {
      walk.add(new FamilyFound(pattern, walk.from, at, walk.marks));
    }
    take(node, at, walk);
    for (Map.Entry<PatternPiece, Node> edge : node.byPiece.entrySet()) {
      PatternPiece piece = edge.getKey();
      if (piece instanceof Gap gap) {
        for (int skipped = 1; skipped <= gap.most(); skipped++) {
          int word = at + skipped - 1;
          if (word >= walk.words.size() || WordShape.isBreak(walk.words.form(word))) {
            break;
          }
          visit(edge.getValue(), at + skipped, walk);
        }
      } else if (piece instanceof Mark mark) {
        Marks before = walk.marks;
        walk.marks = before.with(mark.slot(), at);
        visit(edge.getValue(), at, walk);
        walk.marks = before;
      } else if (holds(piece, at, walk)) {
        visit(edge.getValue(), at, walk);
      }
    }
  }

  private boolean holds(PatternPiece piece, int at, Walk walk) {
    if (piece instanceof Behind behind) {
      return holdsBehind(behind.look(), walk);
    }
    if (piece instanceof NoneAfter none) {
      int last = Math.min(walk.words.size(), at + none.most());
      for (int i = at; i < last && !WordShape.isMark(walk.words.form(i)); i++) {
        if (none.test().at(walk.words, i, lists)) {
          return false;
        }
      }
      return true;
    }
    return piece instanceof Check check && holds(check, at, walk);
  }

  private boolean holdsBehind(PatternPiece look, Walk walk) {
    if (look instanceof Check check) {
      return holds(check, walk.from - 1, walk);
    }
    if (look instanceof Start start) {
      return start.ofSentence() ? walk.from == 0 : clauses.beginsAt(walk.words, walk.from);
    }
    NoneBefore none = (NoneBefore) look;
    int last = Math.max(0, walk.from - none.most());
    for (int i = walk.from - 1; i >= last; i--) {
      if (WordShape.isBreak(walk.words.form(i))) {
        return true;
      }
      if (none.test().at(walk.words, i, lists)) {
        return false;
      }
    }
    return true;
  }

  private boolean holds(Check check, int at, Walk walk) {
    boolean there =
        (at >= 0 && at < walk.words.size())
            ? check.test().at(walk.words, at, lists)
            : check.test().shapes().contains(WordShape.MARK);
    return there == check.wanted();
  }

  private CueMatch matchOf(FamilyFound found, WordSequence words) {
    CuePattern pattern = found.pattern;
    Optional<TokenRange> cause = Optional.empty();
    Optional<TokenRange> effect = Optional.empty();
    if (pattern.type() == CueType.CAUSE_EFFECT) {
      Clauses.Sides sides = clauses.sides(words, found.from, found.to, pattern.front());
      Marks marks = found.marks;
      cause = side(pattern.cause(), marks.causeFrom, marks.causeTo, sides, words);
      effect = side(pattern.effect(), marks.effectFrom, marks.effectTo, sides, words);
    }
    return new CueMatch(
        pattern.type(),
        pattern.family(),
        pattern.pattern(),
        new TokenRange(found.from, found.to),
        cause,
        effect,
        clauses.isDenied(words, found.from));
  }

  private Optional<TokenRange> side(
      Side side, int start, int end, Clauses.Sides sides, WordSequence words) {
    return switch (side) {
      case NONE -> Optional.empty();
      case BEFORE -> sides.before();
      case AFTER ->
          start < 0
              ? sides.after()
              : clauses.trimmed(
                  words, start, Math.max(end, sides.after().map(TokenRange::to).orElse(end)));
      case WITHIN -> start < 0 ? Optional.empty() : clauses.trimmed(words, start, end);
    };
  }
}

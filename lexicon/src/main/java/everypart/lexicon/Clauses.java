package everypart.lexicon;

import java.util.Optional;
import java.util.Set;

/**
 * Finds how far a clause reaches before and after a cue, from marks and from the words that open
 * clauses.
 */
final class Clauses {
  private static final Set<String> COORDINATORS = Language.english().words("coordinator");

  /** Words that begin a clause of their own in the middle of a sentence. */
  private static final Set<String> OPENERS = Language.english().words("clause_opener");

  /** No clause is longer than this, in words: what is looked at for each cue has a bound. */
  private static final int LONGEST = 400;

  private static final Set<String> RELATIVES = Language.english().words("relative");

  /** Words at the edge of a stretch that are no part of what it says. */
  private static final Set<String> EDGE = Language.english().words("clause_edge");

  private static final Set<String> LEADS = Language.english().words("clause_lead");

  private static final Set<String> BETWEEN_DENIAL_AND_VERB =
      Language.english().words("between_denial_and_verb");

  private static final Set<String> DENIALS = Language.english().words("denial");

  /**
   * The stretches on both sides of a cue.
   *
   * @param before the clause before it, or, where the cue's own clause comes first, the clause that
   *     follows that one
   * @param after the words after it
   */
  record Sides(Optional<TokenRange> before, Optional<TokenRange> after) {}

  private final WordLists lists;

  Clauses(WordLists lists) {
    this.lists = lists;
  }

  /** Tells whether a clause begins at token {@code i}. */
  boolean beginsAt(WordSequence words, int i) {
    if (i == 0) {
      return true;
    }
    String before = words.form(i - 1);
    return WordShape.isMark(before) || COORDINATORS.contains(before);
  }

  /** Tells whether the cue that begins at {@code from} is denied. */
  boolean isDenied(WordSequence words, int from) {
    for (int i = from - 1; i >= Math.max(0, from - LONGEST); i--) {
      String form = words.form(i);
      if (DENIALS.contains(form) || form.endsWith("n't")) {
        return true;
      }
      if (!BETWEEN_DENIAL_AND_VERB.contains(form)) {
        return false;
      }
    }
    return false;
  }

  /**
   * Returns the stretches on both sides of a cue.
   *
   * @param front whether the cue's own clause may come first
   */
  Sides sides(WordSequence words, int from, int to, boolean front) {
    Optional<TokenRange> before = before(words, from);
    if (front && before.isEmpty()) {
      int comma = commaBeforeClause(words, to);
      if (comma > 0) {
        return new Sides(
            trimmed(words, comma + 1, endOfClause(words, comma + 1)), trimmed(words, to, comma));
      }
    }
    return new Sides(before, trimmed(words, to, endOfClause(words, to)));
  }

  private Optional<TokenRange> before(WordSequence words, int from) {
    int first = Math.max(0, from - LONGEST);
    int end = from;
    while (end > first && isEdge(words.form(end - 1))) {
      end--;
    }
    if (end == first || WordShape.isBreak(words.form(end - 1))) {
      return Optional.empty();
    }
    int start = end;
    while (start > first) {
      String form = words.form(start - 1);
      if (WordShape.isBreak(form) || OPENERS.contains(form)) {
        break;
      }
      boolean joined =
          COORDINATORS.contains(form) && start > 1 && words.form(start - 2).equals(",");
      if (joined) {
        break;
      }
      start--;
    }
    return trimmed(words, start, end);
  }

  private int endOfClause(WordSequence words, int from) {
    int i = from;
    int last = Math.min(words.size(), from + LONGEST);
    while (i < last) {
      String form = words.form(i);
      if (WordShape.isBreak(form) || (i > from && OPENERS.contains(form))) {
        return i;
      }
      boolean joined =
          form.equals(",")
              && i + 1 < words.size()
              && COORDINATORS.contains(words.form(i + 1))
              && lists.isClauseFrom(words, i + 2);
      if (joined && i > from) {
        return i;
      }
      i++;
    }
    return i;
  }

  /** Returns the comma after which the main clause comes, or 0 where there is none. */
  private int commaBeforeClause(WordSequence words, int from) {
    int first = 0;
    int end = Math.min(words.size() - 1, from + LONGEST);
    for (int i = from + 1; i < end; i++) {
      String form = words.form(i);
      if (WordShape.isBreak(form)) {
        break;
      }
      if (form.equals(",")) {
        if (lists.isClauseFrom(words, i + 1)) {
          return i;
        }
        first = first == 0 ? i : first;
      }
    }
    return first;
  }

  /** Returns a stretch without the marks and link words at its edges; empty when none is left. */
  Optional<TokenRange> trimmed(WordSequence words, int from, int to) {
    int start = from;
    int end = to;
    while (start < end && (WordShape.isMark(words.form(start)) || leads(words.form(start)))) {
      start++;
    }
    while (end > start && isEdge(words.form(end - 1))) {
      end--;
    }
    return start < end ? Optional.of(new TokenRange(start, end)) : Optional.empty();
  }

  private static boolean leads(String form) {
    return COORDINATORS.contains(form) || LEADS.contains(form);
  }

  private static boolean isEdge(String form) {
    return WordShape.isMark(form) || EDGE.contains(form) || RELATIVES.contains(form);
  }
}

package everypart.analyzer.judge;

import everypart.analyzer.text.Token;
import everypart.lexicon.Language;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Reads numbers in figures and in words, "3.40" and "three point four" alike. */
final class NumberWords {
  private static final Map<String, Integer> UNITS = units();
  private static final Map<String, Integer> TENS = numbered("tens", 20, 10);
  private static final Set<String> SIGNS = Set.of("+", "*", "/", "\u00d7", "\u00f7", "^");
  private static final Set<String> OPERATORS = Language.english().words("operator");
  private static final Set<String> MINUS = Language.english().words("minus");
  private static final Set<String> PLUS = Language.english().words("plus");
  private static final Set<String> POINT = Language.english().words("point");
  private static final Set<String> GIVES = Language.english().words("gives");
  private static final Set<String> ONE = Language.english().words("one");

  private NumberWords() {}

  private static Map<String, Integer> units() {
    Map<String, Integer> units = numbered("units", 0, 1);
    Language.english().list("nought").forEach(word -> units.put(word, 0));
    return units;
  }

  /** Returns the words of a list with their numbers, which grow from the first by a step. */
  private static Map<String, Integer> numbered(String list, int first, int step) {
    Map<String, Integer> numbers = new HashMap<>();
    for (String word : Language.english().list(list)) {
      numbers.put(word, first + step * numbers.size());
    }
    return numbers;
  }

  /**
   * A number and where it stands.
   *
   * @param value the number in figures without trailing zeros
   * @param from its first token
   * @param to the token after its last one
   * @param operand whether an operator stands beside it, so that it is no result
   */
  record Numeral(String value, int from, int to, boolean operand, boolean afterEquals) {}

  /** Returns the numbers among some tokens. */
  static Set<String> in(List<Token> tokens) {
    List<Numeral> all = find(tokens);
    if (all.isEmpty()) {
      return Set.of();
    }
    Set<String> values = new LinkedHashSet<>();
    for (Numeral found : all) {
      values.add(found.value());
    }
    return values;
  }

  /** Returns the numbers among some tokens, in order; "one" alone is no number. */
  static List<Numeral> find(List<Token> tokens) {
    List<Numeral> found = new ArrayList<>(0);
    int i = 0;
    while (i < tokens.size()) {
      Token token = tokens.get(i);
      int end = i + 1;
      String value = "";
      if (token.isNumber()) {
        value = trim(token.form());
      } else if (UNITS.containsKey(token.form()) || TENS.containsKey(token.form())) {
        StringBuilder digits = new StringBuilder();
        int whole = UNITS.getOrDefault(token.form(), TENS.getOrDefault(token.form(), 0));
        if (TENS.containsKey(token.form())
            && end < tokens.size()
            && UNITS.getOrDefault(tokens.get(end).form(), 0) % 10 > 0) {
          whole += UNITS.getOrDefault(tokens.get(end).form(), 0);
          end++;
        }
        digits.append(whole);
        boolean point = end + 1 < tokens.size() && POINT.contains(tokens.get(end).form());
        if (point && UNITS.containsKey(tokens.get(end + 1).form())) {
          digits.append('.');
          end++;
          while (end < tokens.size() && UNITS.containsKey(tokens.get(end).form())) {
            digits.append(UNITS.getOrDefault(tokens.get(end).form(), 0));
            end++;
          }
        }
        value = trim(digits.toString());
        if (ONE.contains(token.form()) && end == i + 1) {
          value = "";
        }
      }
      if (!value.isEmpty()) {
        found.add(new Numeral(value, i, end, isOperand(tokens, i, end), isAfterEquals(tokens, i)));
      }
      i = end;
    }
    return found;
  }

  private static boolean isOperand(List<Token> tokens, int from, int to) {
    String before = from > 0 ? tokens.get(from - 1).form() : "";
    String after = to < tokens.size() ? tokens.get(to).form() : "";
    if (after.equals("-") || operates(after)) {
      return true;
    }
    if (before.equals("-") || MINUS.contains(before)) {
      return from > 1 && endsOperand(tokens.get(from - 2));
    }
    return operates(before) && !PLUS.contains(before);
  }

  private static boolean operates(String form) {
    return SIGNS.contains(form) || OPERATORS.contains(form);
  }

  private static boolean endsOperand(Token token) {
    return token.isNumber()
        || token.form().equals(")")
        || token.form().equals("]")
        || UNITS.containsKey(token.form())
        || TENS.containsKey(token.form());
  }

  private static boolean isAfterEquals(List<Token> tokens, int from) {
    for (int i = from - 1; i >= 0 && i >= from - 2; i--) {
      String form = tokens.get(i).form();
      if (form.equals("=") || GIVES.contains(form)) {
        return true;
      }
      if (!form.equals("-") && !MINUS.contains(form)) {
        return false;
      }
    }
    return false;
  }

  private static String trim(String number) {
    String plain = number.replace(",", "");
    if (plain.indexOf('.') < 0) {
      return plain;
    }
    int end = plain.length();
    while (plain.charAt(end - 1) == '0') {
      end--;
    }
    return plain.charAt(end - 1) == '.' ? plain.substring(0, end - 1) : plain.substring(0, end);
  }
}

package everypart.analyzer.judge;

import everypart.analyzer.text.Token;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Reads numbers in figures and in words, "3.40" and "three point four" alike. */
final class NumberWords {
  private static final Map<String, Integer> UNITS =
      Map.ofEntries(
          Map.entry("nought", 0),
          Map.entry("zero", 0),
          Map.entry("one", 1),
          Map.entry("two", 2),
          Map.entry("three", 3),
          Map.entry("four", 4),
          Map.entry("five", 5),
          Map.entry("six", 6),
          Map.entry("seven", 7),
          Map.entry("eight", 8),
          Map.entry("nine", 9),
          Map.entry("ten", 10),
          Map.entry("eleven", 11),
          Map.entry("twelve", 12),
          Map.entry("thirteen", 13),
          Map.entry("fourteen", 14),
          Map.entry("fifteen", 15),
          Map.entry("sixteen", 16),
          Map.entry("seventeen", 17),
          Map.entry("eighteen", 18),
          Map.entry("nineteen", 19));
  private static final Map<String, Integer> TENS =
      Map.of(
          "twenty", 20, "thirty", 30, "forty", 40, "fifty", 50, "sixty", 60, "seventy", 70,
          "eighty", 80, "ninety", 90);
  private static final Set<String> OPERATORS =
      Set.of(
          "+",
          "*",
          "/",
          "\u00d7",
          "\u00f7",
          "^",
          "over",
          "times",
          "plus",
          "minus",
          "divided",
          "multiplied",
          "x");

  private NumberWords() {}

  /**
   * A number and where it stands.
   *
   * @param value the number in figures without trailing zeros
   * @param from its first token
   * @param to the token after its last one
   * @param operand whether an operator stands beside it, so that it is no result
   */
  record Found(String value, int from, int to, boolean operand, boolean afterEquals) {}

  /** Returns the numbers among some tokens. */
  static Set<String> in(List<Token> tokens) {
    List<Found> all = find(tokens);
    if (all.isEmpty()) {
      return Set.of();
    }
    Set<String> values = new LinkedHashSet<>();
    for (Found found : all) {
      values.add(found.value());
    }
    return values;
  }

  /** Returns the numbers among some tokens, in order; "one" alone is no number. */
  static List<Found> find(List<Token> tokens) {
    List<Found> found = new ArrayList<>(0);
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
        boolean point = end + 1 < tokens.size() && tokens.get(end).form().equals("point");
        if (point && UNITS.containsKey(tokens.get(end + 1).form())) {
          digits.append('.');
          end++;
          while (end < tokens.size() && UNITS.containsKey(tokens.get(end).form())) {
            digits.append(UNITS.getOrDefault(tokens.get(end).form(), 0));
            end++;
          }
        }
        value = trim(digits.toString());
        if (token.form().equals("one") && end == i + 1) {
          value = "";
        }
      }
      if (!value.isEmpty()) {
        found.add(new Found(value, i, end, isOperand(tokens, i, end), isAfterEquals(tokens, i)));
      }
      i = end;
    }
    return found;
  }

  private static boolean isOperand(List<Token> tokens, int from, int to) {
    String before = from > 0 ? tokens.get(from - 1).form() : "";
    String after = to < tokens.size() ? tokens.get(to).form() : "";
    if (after.equals("-") || OPERATORS.contains(after)) {
      return true;
    }
    if (before.equals("-") || before.equals("minus")) {
      return from > 1 && endsOperand(tokens.get(from - 2));
    }
    return OPERATORS.contains(before) && !before.equals("plus");
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
      if (form.equals("=") || form.equals("equals") || form.equals("gives")) {
        return true;
      }
      if (!form.equals("-") && !form.equals("minus")) {
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

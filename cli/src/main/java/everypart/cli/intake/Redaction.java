package everypart.cli.intake;

import everypart.cli.intake.document.Limit;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Takes names out of texts. A name is found as a whole word, as it is written in the list and in
 * capitals; so "Rose" leaves "the tide rose" alone. Several words of a name may stand apart by any
 * white space.
 */
public final class Redaction {
  /** What stands in the place of a name. */
  public static final String SIGN = "[name]";

  /** Takes nothing out. */
  public static final Redaction NONE = new Redaction(List.of());

  private static final int MOST_NAMES = 10_000;
  private static final int LONGEST_NAME = 200;

  private final Optional<Pattern> pattern;

  Redaction(List<String> names) {
    String all =
        names.stream()
            .map(String::strip)
            .filter(name -> !name.isEmpty())
            .flatMap(name -> List.of(name, name.toUpperCase(Locale.ROOT)).stream())
            .distinct()
            .sorted(Comparator.comparingInt(String::length).reversed())
            .map(
                name ->
                    List.of(name.split("\\s+")).stream()
                        .map(Pattern::quote)
                        .collect(Collectors.joining("\\s+")))
            .collect(Collectors.joining("|"));
    this.pattern =
        all.isEmpty()
            ? Optional.empty()
            : Optional.of(Pattern.compile("(?<![\\p{L}\\p{N}])(?:" + all + ")(?![\\p{L}\\p{N}])"));
  }

  /**
   * Reads a list of names, one a line.
   *
   * @throws InputException when it cannot be read, holds no name, or more than a list of names does
   */
  public static Redaction read(Sources sources, String file) throws InputException {
    String text = sources.text(file);
    if (text.length() > sources.limits().of(Limit.TEXT)) {
      throw new InputException(Sources.over(Sources.place(file), sources.limits(), Limit.TEXT));
    }
    List<String> names = text.lines().filter(line -> !line.isBlank()).toList();
    if (names.size() > MOST_NAMES
        || names.stream().anyMatch(name -> name.length() > LONGEST_NAME)) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(file),
              Sayings.of("redaction.noList", MOST_NAMES, LONGEST_NAME),
              Sayings.of("redaction.writeOneName")));
    }
    if (names.isEmpty()) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(file),
              Sayings.of("redaction.noNameList"),
              Sayings.of("redaction.writeOneName")));
    }
    return new Redaction(names);
  }

  /** Returns a text without the names. */
  public String apply(String text) {
    return pattern
        .map(names -> names.matcher(text).replaceAll(Matcher.quoteReplacement(SIGN)))
        .orElse(text);
  }
}

package everypart.cli.intake;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Where a student's id stands in the name of a file: {@code {id}} marks it, {@code {prompt}} the id
 * of the prompt, {@code *} is anything and {@code ?} one sign.
 *
 * <p>A pattern without a slash is held against the file's name without its ending; one with slashes
 * against as many of the last folders as it names.
 */
public final class NamePattern {
  private static final Pattern PIECE = Pattern.compile("\\{(\\w*)\\}|[*?]|[^{*?]+|\\{");

  private final Pattern pattern;
  private final int steps;
  private final boolean prompt;

  /**
   * What a name tells.
   *
   * @param id the student's id
   * @param prompt the prompt's id, where the pattern asks for it
   */
  record Told(String id, Optional<String> prompt) {}

  private NamePattern(Pattern pattern, int steps, boolean prompt) {
    this.pattern = pattern;
    this.steps = steps;
    this.prompt = prompt;
  }

  /**
   * Reads a pattern.
   *
   * @throws IllegalArgumentException when it does not say where the id stands
   */
  public static NamePattern of(String text) {
    StringBuilder regex = new StringBuilder();
    int ids = 0;
    int prompts = 0;
    for (Matcher piece = PIECE.matcher(text); piece.find(); ) {
      String name = piece.group(1);
      if (name == null) {
        regex.append(
            switch (piece.group()) {
              case "*" -> "[^/]*?";
              case "?" -> "[^/]";
              default -> Pattern.quote(piece.group());
            });
      } else if (name.equals("id")) {
        ids++;
        regex.append("(?<id>[^/]+?)");
      } else if (name.equals("prompt")) {
        prompts++;
        regex.append("(?<prompt>[^/]+?)");
      } else {
        throw new IllegalArgumentException(
            "{" + name + "} means nothing here; use {id} and, for several prompts, {prompt}");
      }
      if (ids > 1 || prompts > 1) {
        throw new IllegalArgumentException("{id} and {prompt} may stand in it once");
      }
    }
    if (ids == 0) {
      throw new IllegalArgumentException(
          "say with {id} where the student's id stands, as in \"{id}_*\"");
    }
    return new NamePattern(
        Pattern.compile(regex.toString(), Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE),
        (int) text.chars().filter(c -> c == '/').count(),
        prompts > 0);
  }

  /** Returns what a file's name tells; empty when it does not fit. */
  Optional<Told> read(List<String> folders, String stem) {
    if (folders.size() < steps) {
      return Optional.empty();
    }
    StringBuilder path = new StringBuilder();
    folders
        .subList(folders.size() - steps, folders.size())
        .forEach(folder -> path.append(folder).append('/'));
    Matcher matcher = pattern.matcher(path.append(stem));
    return matcher.matches()
        ? Optional.of(
            new Told(
                matcher.group("id").strip(),
                prompt ? Optional.of(matcher.group("prompt").strip()) : Optional.empty()))
        : Optional.empty();
  }
}

package everypart.cli.report;

import everypart.analyzer.study.StudyDesign;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Two scripts that read the {@code demands.csv} of a study that compares groups, and fit the model
 * of its design: {@code model.R} and {@code model.py}. The program runs neither.
 */
public final class ModelScripts {
  /** The script for R. */
  public static final String R = "model.R";

  /** The script for Python. */
  public static final String PYTHON = "model.py";

  private static final Pattern SLOT = Pattern.compile("@([A-Z_]+)@");

  private ModelScripts() {}

  /** Returns the names of the scripts that a study writes: none where no groups are compared. */
  public static List<String> names(StudyLog.Settings settings) {
    return settings.by().isEmpty() ? List.of() : List.of(PYTHON, R);
  }

  /**
   * Returns the scripts of a study that compares groups, by name.
   *
   * @param table the name of its table of demands
   */
  public static Map<String, String> of(StudyLog log, StudyDesign design, String table) {
    Map<String, String> scripts = new TreeMap<>();
    for (String name : names(log.settings())) {
      boolean python = name.equals(PYTHON);
      boolean leavingOut = log.settings().leastWords() > 0;
      Map<String, String> values =
          Map.of(
              "PROGRAM", Words.oneLine(log.program()),
              "TABLE", table,
              "GROUPS", literals(design.by()),
              "CLUSTERS", literals(design.clusters()),
              "DRAFT",
                  design
                      .drafts()
                      .map(drafts -> literal(DemandsCsv.safe(drafts.column())))
                      .orElse(python ? "None" : "NULL"),
              "LEFT_OUT",
                  python ? (leavingOut ? "True" : "False") : (leavingOut ? "TRUE" : "FALSE"),
              "LEVEL", String.valueOf(log.settings().level()));
      scripts.put(
          name,
          SLOT.matcher(template(name))
              .replaceAll(
                  slot ->
                      Matcher.quoteReplacement(Objects.requireNonNull(values.get(slot.group(1))))));
    }
    return scripts;
  }

  private static String literals(List<String> names) {
    return names.stream()
        .map(DemandsCsv::safe)
        .map(ModelScripts::literal)
        .collect(Collectors.joining(", "));
  }

  /**
   * Returns a name in quotes as both R and Python read it: whatever is no plain letter, digit or
   * sign stands as its code point, so that no name can end the quotes, and the script is ASCII.
   */
  static String literal(String name) {
    StringBuilder out = new StringBuilder("\"");
    name.codePoints()
        .forEach(
            c -> {
              if (c >= ' ' && c <= '~' && c != '"' && c != '\\') {
                out.append((char) c);
              } else {
                out.append(String.format(Locale.ROOT, c > 0xFFFF ? "\\U%08x" : "\\u%04x", c));
              }
            });
    return out.append('"').toString();
  }

  private static String template(String name) {
    try (InputStream in = Objects.requireNonNull(ModelScripts.class.getResourceAsStream(name))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

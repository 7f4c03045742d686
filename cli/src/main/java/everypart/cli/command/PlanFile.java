package everypart.cli.command;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Sources;
import everypart.cli.report.StudyLog;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * What was fixed before a study was run: its one primary comparison, the columns, the level and the
 * seed. What the file does not name is fixed too, as the program's own choice.
 *
 * @param primary the planned comparison
 * @param by columns compared
 * @param cluster the columns that name clusters, with a comma between two; null without
 * @param draft the column of drafts, and their order; null without
 * @param writer the column of writers; null without
 * @param level the level of intervals
 * @param seed the seed
 * @param leastWords responses of fewer words are left out
 */
record PlanFile(
    StudyLog.Primary primary,
    List<String> by,
    @Nullable String cluster,
    @Nullable String draft,
    @Nullable String writer,
    double level,
    long seed,
    int leastWords) {
  private static final YAMLMapper MAPPER = new YAMLMapper();
  private static final List<String> KEYS =
      List.of("primary", "by", "cluster", "draft", "writer", "level", "seed", "least-words");
  private static final List<String> PRIMARY = List.of("compare", "groups", "kind");

  /**
   * Reads a plan.
   *
   * @param name a YAML file
   * @throws InputException when it cannot be read, or says what no plan can
   */
  static PlanFile read(Sources sources, String name) throws InputException {
    JsonNode plan;
    try {
      plan = MAPPER.readTree(sources.text(name));
    } catch (JsonProcessingException e) {
      throw wrong(
          name,
          "this is no YAML ("
              + String.valueOf(e.getOriginalMessage()).lines().findFirst().orElse("")
              + ")",
          "write a key, a colon and its value on each line");
    }
    return new Reading(name, plan).whole();
  }

  private static InputException wrong(String name, String what, String mend) {
    return new InputException(InputProblem.fault(Sources.place(name), what, mend));
  }

  /** A file while it is being read. */
  private record Reading(String name, JsonNode plan) {
    PlanFile whole() throws InputException {
      known(plan, KEYS, "");
      JsonNode primary = plan.path("primary");
      if (!primary.isObject()) {
        throw wrong(
            name,
            "there is no primary comparison",
            "write primary: with compare: COLUMN and groups: [ONE, OTHER] under it, or compare:"
                + " drafts");
      }
      known(primary, PRIMARY, "primary: ");
      List<String> by = words(plan, "by");
      StudyLog.Primary first =
          new StudyLog.Primary(
              text(primary, "compare"), words(primary, "groups"), textOrNull(primary, "kind"));
      check(first, by);
      return new PlanFile(
          first,
          by,
          plan.has("cluster") ? String.join(",", words(plan, "cluster")) : null,
          textOrNull(plan, "draft"),
          textOrNull(plan, "writer"),
          number(plan, "level", Level.DEFAULT.value(), 0.5, 0.9999),
          (long) number(plan, "seed", 1, Long.MIN_VALUE, Long.MAX_VALUE),
          (int) number(plan, "least-words", 0, 0, Integer.MAX_VALUE));
    }

    private void check(StudyLog.Primary primary, List<String> by) throws InputException {
      if (primary.kind() != null) {
        try {
          DemandKind.of(primary.kind());
        } catch (IllegalArgumentException e) {
          throw wrong(
              name,
              "\"" + primary.kind() + "\" is no kind of demand",
              "give one of "
                  + String.join(
                      ", ", Arrays.stream(DemandKind.values()).map(DemandKind::word).toList()));
        }
      }
      if (primary.ofDrafts()) {
        if (!plan.has("draft") || !plan.has("writer")) {
          throw wrong(
              name,
              "drafts are to be compared, and the plan does not say which columns tell them",
              "add draft: and writer:");
        }
        if (!primary.groups().isEmpty()) {
          throw wrong(
              name,
              "the primary comparison is of drafts and has groups too",
              "take groups: away, since the first and the last draft are compared");
        }
        return;
      }
      if (!by.contains(primary.compare())) {
        throw wrong(
            name,
            "the primary comparison is by \"" + primary.compare() + "\", which by: does not name",
            "add it to by:");
      }
      if (primary.groups().size() != 2 || Set.copyOf(primary.groups()).size() != 2) {
        throw wrong(
            name,
            "the primary comparison needs two groups",
            "write groups: [ONE, OTHER] under primary:, with values of the column "
                + primary.compare());
      }
    }

    private void known(JsonNode node, List<String> keys, String where) throws InputException {
      Set<String> others = new TreeSet<>();
      node.fieldNames().forEachRemaining(others::add);
      others.removeAll(keys);
      if (!node.isObject() || !others.isEmpty()) {
        throw wrong(
            name,
            others.isEmpty()
                ? "this is no plan of a study"
                : where + "a plan has no \"" + others.iterator().next() + "\"",
            "it may have " + String.join(", ", keys));
      }
    }

    private String text(JsonNode node, String key) throws InputException {
      String text = textOrNull(node, key);
      if (text == null) {
        throw wrong(name, "primary: has no " + key, "write " + key + ": and its value under it");
      }
      return text;
    }

    private @Nullable String textOrNull(JsonNode node, String key) throws InputException {
      JsonNode value = node.path(key);
      if (value.isMissingNode()) {
        return null;
      }
      if (!value.isValueNode() || value.asText().isBlank()) {
        throw wrong(name, key + ": has no value, or more than one", "give it one");
      }
      return value.asText().strip();
    }

    private List<String> words(JsonNode node, String key) throws InputException {
      JsonNode value = node.path(key);
      List<String> words = new ArrayList<>();
      if (value.isArray()) {
        value.forEach(one -> words.add(one.asText().strip()));
      } else if (value.isValueNode()) {
        Arrays.stream(value.asText().split(",", -1)).map(String::strip).forEach(words::add);
      }
      if (!value.isMissingNode() && (words.isEmpty() || words.contains(""))) {
        throw wrong(name, key + ": has an empty value", "give it one, or several as [ONE, OTHER]");
      }
      return words;
    }

    private double number(JsonNode node, String key, double without, double least, double most)
        throws InputException {
      JsonNode value = node.path(key);
      if (value.isMissingNode()) {
        return without;
      }
      if (!value.isNumber() || value.asDouble() < least || value.asDouble() > most) {
        throw wrong(
            name,
            key + ": " + value.asText() + " cannot be taken",
            key.equals("level") ? "give a number such as 0.95" : "give a whole number");
      }
      return value.asDouble();
    }
  }

  /**
   * Returns the first option that was given and differs from this plan, in words; nothing where
   * none does. Options left out are as planned.
   *
   * @param asked what the options say
   * @param given the names of those that were given
   */
  Optional<String> difference(PlanFile asked, Set<String> given) {
    return differs(given, "--by", asked.by, by)
        .or(() -> differs(given, "--cluster", asked.cluster, cluster))
        .or(() -> differs(given, "--draft", asked.draft, draft))
        .or(() -> differs(given, "--writer", asked.writer, writer))
        .or(() -> differs(given, "--level", asked.level, level))
        .or(() -> differs(given, "--seed", asked.seed, seed))
        .or(() -> differs(given, "--least-words", asked.leastWords, leastWords))
        .or(() -> differs(given, "--leave-out-empty", asked.leastWords, leastWords));
  }

  private static Optional<String> differs(
      Set<String> given, String option, @Nullable Object asked, @Nullable Object planned) {
    return !given.contains(option) || Objects.equals(asked, planned)
        ? Optional.empty()
        : Optional.of(option + " " + word(asked) + ", and the plan has " + word(planned));
  }

  private static String word(@Nullable Object value) {
    return value == null || value.equals(List.of())
        ? "nothing"
        : value instanceof List<?> list
            ? String.join(",", list.stream().map(String::valueOf).toList())
            : value.toString();
  }
}

package everypart.cli.run.study;

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
public record PlanFile(
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
  public static PlanFile read(Sources sources, String name) throws InputException {
    JsonNode plan;
    try {
      plan = MAPPER.readTree(sources.text(name));
    } catch (JsonProcessingException e) {
      throw wrong(
          name,
          Sayings.of(
              "planFile.noYaml",
              String.valueOf(e.getOriginalMessage()).lines().findFirst().orElse("")),
          Sayings.of("planFile.writeKeyColon"));
    }
    return new Parsed(name, plan).whole();
  }

  private static InputException wrong(String name, String what, String mend) {
    return new InputException(InputProblem.fault(Sources.place(name), what, mend));
  }

  /** A file while it is being read. */
  private record Parsed(String name, JsonNode plan) {
    PlanFile whole() throws InputException {
      known(plan, KEYS, "planFile.unknownKey");
      JsonNode primary = plan.path("primary");
      if (!primary.isObject()) {
        throw wrong(name, Sayings.of("planFile.noPrimary"), Sayings.of("planFile.writePrimary"));
      }
      known(primary, PRIMARY, "planFile.unknownKeyOfPrimary");
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
          level(Level.DEFAULT.value(), 0.5, 0.9999),
          whole("seed", 1, Long.MIN_VALUE, Long.MAX_VALUE, "planFile.giveWholeNumber"),
          Math.toIntExact(
              whole("least-words", 0, 0, Integer.MAX_VALUE, "planFile.giveNumberOfWords")));
    }

    private void check(StudyLog.Primary primary, List<String> by) throws InputException {
      if (primary.kind() != null) {
        try {
          DemandKind.of(primary.kind());
        } catch (IllegalArgumentException e) {
          throw wrong(
              name,
              Sayings.of("planFile.noKind", primary.kind()),
              Sayings.of(
                  "planFile.giveKind",
                  String.join(
                      ", ", Arrays.stream(DemandKind.values()).map(DemandKind::word).toList())));
        }
      }
      if (primary.ofDrafts()) {
        if (!plan.has("draft") || !plan.has("writer")) {
          throw wrong(
              name,
              Sayings.of("planFile.draftsWithoutColumns"),
              Sayings.of("planFile.addDraftWriter"));
        }
        if (!primary.groups().isEmpty()) {
          throw wrong(
              name, Sayings.of("planFile.draftsWithGroups"), Sayings.of("planFile.takeGroupsAway"));
        }
        return;
      }
      if (!by.contains(primary.compare())) {
        throw wrong(
            name,
            Sayings.of("planFile.columnNotCompared", primary.compare()),
            Sayings.of("planFile.addToBy"));
      }
      if (primary.groups().size() != 2 || Set.copyOf(primary.groups()).size() != 2) {
        throw wrong(
            name,
            Sayings.of("planFile.twoGroups"),
            Sayings.of("planFile.writeGroups", primary.compare()));
      }
    }

    private void known(JsonNode node, List<String> keys, String unknown) throws InputException {
      Set<String> others = new TreeSet<>();
      node.fieldNames().forEachRemaining(others::add);
      others.removeAll(keys);
      if (!node.isObject() || !others.isEmpty()) {
        throw wrong(
            name,
            others.isEmpty()
                ? Sayings.of("planFile.noPlan")
                : Sayings.of(unknown, others.iterator().next()),
            Sayings.of("planFile.keysAllowed", String.join(", ", keys)));
      }
    }

    private String text(JsonNode node, String key) throws InputException {
      String text = textOrNull(node, key);
      if (text == null) {
        throw wrong(
            name,
            Sayings.of("planFile.primaryLacks", key),
            Sayings.of("planFile.writeUnderPrimary", key));
      }
      return text;
    }

    private @Nullable String textOrNull(JsonNode node, String key) throws InputException {
      JsonNode value = node.path(key);
      if (value.isMissingNode()) {
        return null;
      }
      if (!value.isValueNode() || value.asText().isBlank()) {
        throw wrong(
            name, Sayings.of("planFile.notOneValue", key), Sayings.of("planFile.giveOneValue"));
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
        throw wrong(
            name, Sayings.of("planFile.emptyValue", key), Sayings.of("planFile.giveValues"));
      }
      return words;
    }

    private double level(double without, double least, double most) throws InputException {
      JsonNode value = one("level");
      if (value.isMissingNode()) {
        return without;
      }
      if (!value.isNumber() || !(value.asDouble() >= least && value.asDouble() <= most)) {
        throw wrongNumber("level", value, "planFile.giveLevel");
      }
      return value.asDouble();
    }

    /** Returns a whole number as it stands; what would have to be cut or rounded is refused. */
    private long whole(String key, long without, long least, long most, String mend)
        throws InputException {
      JsonNode value = one(key);
      if (value.isMissingNode()) {
        return without;
      }
      if (!value.isIntegralNumber()
          || !value.canConvertToLong()
          || value.asLong() < least
          || value.asLong() > most) {
        throw wrongNumber(key, value, mend);
      }
      return value.asLong();
    }

    private JsonNode one(String key) throws InputException {
      textOrNull(plan, key);
      return plan.path(key);
    }

    private InputException wrongNumber(String key, JsonNode value, String mend) {
      return wrong(name, Sayings.of("planFile.wrongNumber", key, value.asText()), Sayings.of(mend));
    }
  }

  /**
   * Returns the first option that was given and differs from this plan, in words; nothing where
   * none does. Options left out are as planned.
   *
   * @param asked what the options say
   * @param given the names of those that were given
   */
  public Optional<String> difference(PlanFile asked, Set<String> given) {
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
        : Optional.of(Sayings.of("planFile.differs", option, word(asked), word(planned)));
  }

  private static String word(@Nullable Object value) {
    return value == null || value.equals(List.of())
        ? Sayings.of("planFile.nothing")
        : value instanceof List<?> list
            ? String.join(",", list.stream().map(String::valueOf).toList())
            : value.toString();
  }
}

package everypart.cli.run.study;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import everypart.cli.report.StudyLog;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What keeps two runs of a study from having the same results. */
final class StudyDifference {
  private static final JsonMapper MAPPER = new JsonMapper();

  private StudyDifference() {}

  /**
   * Returns the first difference in words, or nothing when both runs are of one study.
   *
   * @param before the earlier run
   * @param now the later one
   */
  static Optional<String> between(StudyLog before, StudyLog now) {
    if (!before.program().equals(now.program())) {
      return Optional.of(Sayings.of("studyDifference.run", before.program(), now.program()));
    }
    return setting(before, now)
        .or(() -> shard(before, now))
        .or(() -> files(before, now))
        .or(
            () ->
                before.whole().equals(now.whole())
                    ? Optional.empty()
                    : Optional.of(Sayings.of("studyDifference.promptsColumnsRead")));
  }

  private static Optional<String> setting(StudyLog before, StudyLog now) {
    JsonNode own = MAPPER.valueToTree(before.settings());
    JsonNode others = MAPPER.valueToTree(now.settings());
    for (Map.Entry<String, JsonNode> setting : own.properties()) {
      JsonNode other = others.path(setting.getKey());
      if (setting.getKey().equals("judge") && !setting.getValue().equals(other)) {
        return Optional.of(
            Sayings.of("studyDifference.judged", word(setting.getValue()), word(other)));
      }
      if (!setting.getValue().equals(other)) {
        return Optional.of(
            Sayings.of(
                "studyDifference.run2",
                option(setting.getKey()),
                word(setting.getValue()),
                word(other)));
      }
    }
    return Optional.empty();
  }

  /** Returns a setting as its option is written: leastWords is --least-words. */
  private static String option(String setting) {
    return setting.replaceAll("([A-Z])", "-$1").toLowerCase(Locale.ROOT);
  }

  private static String word(JsonNode value) {
    if (value.isNull() || (value.isArray() && value.isEmpty())) {
      return "nothing";
    }
    if (value.isArray()) {
      List<String> words = new ArrayList<>();
      value.forEach(one -> words.add(one.asText()));
      return String.join(",", words);
    }
    return value.asText();
  }

  private static Optional<String> shard(StudyLog before, StudyLog now) {
    return Objects.equals(before.shard(), now.shard())
        ? Optional.empty()
        : Optional.of(
            Sayings.of("studyDifference.runShard", word(before.shard()), word(now.shard())));
  }

  private static String word(StudyLog.@Nullable Share share) {
    return share == null ? "nothing" : share.index() + "/" + share.of();
  }

  private static Optional<String> files(StudyLog before, StudyLog now) {
    Map<String, Optional<String>> own = files(before.inputs());
    Map<String, Optional<String>> others = files(now.inputs());
    for (Map.Entry<String, Optional<String>> file : own.entrySet()) {
      Optional<String> other = others.get(file.getKey());
      if (other == null) {
        return Optional.of(Sayings.of("studyDifference.runWhichNo", file.getKey()));
      }
      if (!file.getValue().equals(other)) {
        return Optional.of(
            Sayings.of(
                "studyDifference.changedSinceSha",
                file.getKey(),
                file.getValue().orElse(Sayings.of("studyDifference.notKnown")),
                other.orElse(Sayings.of("studyDifference.notKnown"))));
      }
    }
    return others.keySet().stream()
        .filter(file -> !own.containsKey(file))
        .findFirst()
        .map(file -> Sayings.of("studyDifference.beenAddedSince", file));
  }

  /** Returns the checksums of all files a run read, by what they are and their names. */
  private static Map<String, Optional<String>> files(StudyLog.Inputs inputs) {
    Map<String, Optional<String>> files = new LinkedHashMap<>();
    put(files, "studyDifference.fileResponses", inputs.responses());
    inputs
        .prompts()
        .forEach(
            prompt ->
                files.put(
                    Sayings.of("studyDifference.promptFile", prompt.file()),
                    Optional.ofNullable(prompt.sha256())));
    StudyLog.Checked codes = inputs.codes();
    if (codes != null) {
      put(files, "studyDifference.fileCodes", codes);
    }
    inputs.lexicon().forEach(file -> put(files, "studyDifference.lexiconFile", file));
    StudyLog.Plan plan = inputs.plan();
    if (plan != null) {
      files.put(
          Sayings.of("studyDifference.planFile", plan.name()), Optional.ofNullable(plan.sha256()));
    }
    return files;
  }

  private static void put(Map<String, Optional<String>> files, String what, StudyLog.Checked file) {
    files.put(Sayings.of(what, file.name()), Optional.ofNullable(file.sha256()));
  }
}

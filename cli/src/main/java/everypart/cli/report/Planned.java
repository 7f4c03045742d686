package everypart.cli.report;

import com.fasterxml.jackson.core.JsonGenerator;
import everypart.analyzer.study.StudySummary;
import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * The one comparison that was planned before the study, where there is a plan file: all else is
 * exploratory. It is tested alone, so its probability needs no correction.
 */
final class Planned {
  private final StudyLog.Plan plan;
  private final StudySummary summary;

  private Planned(StudyLog.Plan plan, StudySummary summary) {
    this.plan = plan;
    this.summary = summary;
  }

  /** Returns what was planned; nothing without a plan file. */
  static Optional<Planned> of(StudyLog log, StudySummary summary) {
    return Optional.ofNullable(log.inputs().plan()).map(plan -> new Planned(plan, summary));
  }

  private StudyLog.Primary primary() {
    return plan.primary();
  }

  private boolean ofKind(Optional<DemandKind> kind) {
    return Optional.ofNullable(primary().kind()).equals(kind.map(DemandKind::word));
  }

  /** Returns whether this comparison is the planned one. */
  boolean is(StudySummary.GroupComparison one) {
    return one.column().equals(primary().compare())
        && Set.copyOf(primary().groups()).equals(Set.of(one.first(), one.second()))
        && ofKind(one.kind());
  }

  /** Returns whether this change between drafts is the planned comparison. */
  boolean is(StudySummary.Change one) {
    return primary().ofDrafts() && ofKind(one.kind());
  }

  /** Returns the planned comparison of groups, where the study has it. */
  Optional<StudySummary.GroupComparison> comparison() {
    return summary.comparisons().stream().filter(this::is).findFirst();
  }

  /** Returns the planned change between drafts, where the study has it. */
  Optional<StudySummary.Change> change() {
    return summary.drafts().stream()
        .flatMap(drafts -> drafts.changes().stream())
        .filter(this::is)
        .findFirst();
  }

  /** Returns the plan's file and checksum. */
  StudyLog.Plan plan() {
    return plan;
  }

  /** Returns the planned comparison in words. */
  String words() {
    String kind =
        primary().kind() == null
            ? Wording.of("planned.all")
            : Wording.of("planned.kind", "kind", primary().kind());
    return primary().ofDrafts()
        ? Wording.of("planned.drafts", "demands", kind)
        : Wording.of(
            "planned.groups",
            "column",
            primary().compare(),
            "first",
            primary().groups().get(0),
            "second",
            primary().groups().get(1),
            "demands",
            kind);
  }

  /** Returns what stands in a table beside a comparison. */
  static String role(boolean planned) {
    return Wording.of(planned ? "planned.role.primary" : "planned.role.other");
  }

  void write(JsonGenerator json) throws IOException {
    json.writeObjectFieldStart("plan");
    json.writeStringField("file", plan.name());
    json.writeStringField("sha256", plan.sha256());
    json.writeObjectFieldStart("primary");
    json.writeStringField("compare", primary().compare());
    json.writeArrayFieldStart("groups");
    for (String group : primary().groups()) {
      json.writeString(group);
    }
    json.writeEndArray();
    json.writeStringField("kind", primary().kind());
    json.writeEndObject();
    json.writeBooleanField("made", comparison().isPresent() || change().isPresent());
    json.writeEndObject();
  }

  /** Returns the sentences for a methods section. */
  List<String> methods() {
    return List.of(
        Wording.of(
            "planned.methods",
            "file",
            plan.name(),
            "sum",
            Optional.ofNullable(plan.sha256()).orElse(""),
            "what",
            words()));
  }
}

package everypart.cli.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/**
 * What became of the rows of a study, from those read to those that its figures count, with the
 * reason for each that was lost or left out on the way.
 *
 * @param rows what became of them
 * @param leastWords responses of fewer words are left out; 0 where none is
 */
record Flow(StudyLog.Rows rows, int leastWords) {
  /** Returns the flow of a study. */
  static Flow of(StudyLog log) {
    return new Flow(log.rows(), log.settings().leastWords());
  }

  private StudyLog.Reasons reasons() {
    return rows.reasons();
  }

  /** Returns how many responses have a result and are left out of the figures. */
  long leftOut() {
    return leastWords == 0 ? 0 : reasons().empty() + reasons().tooShort();
  }

  /** Returns how many responses the figures count. */
  long counted() {
    return rows.judged() - leftOut();
  }

  void write(JsonGenerator json) throws IOException {
    json.writeObjectFieldStart("flow");
    json.writeNumberField("read", rows.read());
    json.writeNumberField("unreadable", reasons().unreadable());
    json.writeNumberField("unknownPrompt", reasons().unknownPrompt());
    json.writeNumberField("notJudged", reasons().notJudged());
    json.writeNumberField("judged", rows.judged());
    json.writeNumberField("empty", reasons().empty());
    json.writeNumberField("tooShort", reasons().tooShort());
    json.writeNumberField("leastWords", leastWords);
    json.writeNumberField("leftOut", leftOut());
    json.writeNumberField("counted", counted());
    json.writeEndObject();
  }

  /** Returns the flow as a table: what, how many, and what it means. */
  List<List<String>> table() {
    List<List<String>> table = new ArrayList<>();
    line(table, "read", rows.read());
    line(table, "unreadable", reasons().unreadable());
    line(table, "unknownPrompt", reasons().unknownPrompt());
    line(table, "notJudged", reasons().notJudged());
    line(table, "judged", rows.judged());
    line(table, leastWords == 0 ? "empty.counted" : "empty.leftOut", reasons().empty());
    if (leastWords > 1) {
      table.add(
          List.of(
              Wording.of("flow.tooShort"),
              String.valueOf(reasons().tooShort()),
              Wording.of("flow.tooShort.means", "least", leastWords)));
    }
    line(table, "counted", counted());
    return table;
  }

  private static void line(List<List<String>> table, String what, long count) {
    table.add(
        List.of(
            Wording.of("flow." + what),
            String.valueOf(count),
            Wording.of("flow." + what + ".means")));
  }

  /** Returns the flow in sentences, for a methods section. */
  String sentences() {
    List<String> lost = new ArrayList<>();
    clause(lost, "flow.clause.unreadable", reasons().unreadable());
    clause(lost, "flow.clause.unknownPrompt", reasons().unknownPrompt());
    clause(lost, "flow.clause.notJudged", reasons().notJudged());
    String judged =
        lost.isEmpty()
            ? Wording.count("flow.all", rows.read())
            : Wording.of(
                "flow.some",
                "read",
                rows.read(),
                "lost",
                String.join(", ", lost),
                "judged",
                rows.judged());
    return judged + " " + nonResponse();
  }

  private static void clause(List<String> clauses, String key, long count) {
    if (count > 0) {
      clauses.add(Wording.of(key, "n", count));
    }
  }

  private String nonResponse() {
    long empty = reasons().empty();
    if (leastWords == 0) {
      return empty == 0 ? Wording.of("flow.noneEmpty") : Wording.count("flow.emptyCounted", empty);
    }
    if (leastWords == 1) {
      return empty == 0
          ? Wording.of("flow.noneLeftOut")
          : Wording.count("flow.emptyLeftOut", empty);
    }
    return Wording.of(
        "flow.shortLeftOut",
        "least",
        leastWords,
        "empty",
        empty,
        "short",
        reasons().tooShort(),
        "counted",
        counted());
  }
}

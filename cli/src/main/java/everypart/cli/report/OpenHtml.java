package everypart.cli.report;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import everypart.lexicon.DemandKind;
import java.util.List;
import java.util.Set;

/** The local page, in which a student checks an answer and a teacher drops a class. */
public final class OpenHtml {
  private OpenHtml() {}

  /** What the page says before its script runs. */
  record Page(String caution, String judge) {}

  /**
   * Returns the page.
   *
   * @param judge by what answers are judged: {@link
   *     everypart.analyzer.coverage.CoverageAnalyzer#judge}
   * @param firstLook whether what is being typed is judged more quickly until there is a pause
   */
  public static String page(String judge, boolean firstLook) {
    ObjectNode data = JsonNodeFactory.instance.objectNode();
    data.put("firstLook", firstLook);
    ObjectNode kinds = data.putObject("kinds");
    for (DemandKind kind : DemandKind.values()) {
      kinds.put(kind.word(), Wording.of("kind." + kind.word()));
    }
    return Templates.page(
        "open.html",
        Wording.of("app.title"),
        List.of("style.css", "open.css"),
        new Page(Cautions.WRITER, Cautions.judge(Set.of(judge))),
        PageData.inPage(data.toString()),
        List.of("page-tools.js", "open.js"),
        "'self'");
  }
}

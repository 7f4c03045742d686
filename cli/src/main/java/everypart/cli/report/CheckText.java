package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import java.io.PrintWriter;
import java.util.Locale;

/** The result of one response as text for its writer. */
public final class CheckText {
  private static final int WIDTH = 88;

  private final Colours colours;

  /** Makes a renderer. */
  public CheckText(Colours colours) {
    this.colours = colours;
  }

  /** Writes a result. */
  public void write(Coverage coverage, PrintWriter out) {
    ResponseView view = ResponseView.of(coverage, "r");
    out.println(colours.bold(coverage.prompt().title().orElse(coverage.prompt().id())));
    out.println(view.summary() + ".");
    if (view.empty()) {
      out.println("The response is empty.");
    }
    for (ResponseView.PartView part : view.parts()) {
      out.println();
      wrap(out, "Part " + part.label() + "  ", "        ", Words.shortened(part.wording(), 160));
      if (part.demands().isEmpty()) {
        out.println("  no demand was found in this part");
      }
      for (ResponseView.DemandView demand : part.demands()) {
        write(demand, out);
      }
    }
    if (!view.remarks().isEmpty()) {
      out.println();
      view.remarks().forEach(remark -> wrap(out, "Note: ", "      ", remark));
    }
    out.println();
    wrap(out, "", "", Cautions.WRITER);
  }

  private void write(ResponseView.DemandView demand, PrintWriter out) {
    String word = demand.verdict().word();
    out.println(
        "  "
            + colours.verdict(
                word, demand.verdict().shape() + " " + String.format(Locale.ROOT, "%-10s", word))
            + " "
            + demand.words()
            + (demand.look() ? "   (not sure: look yourself)" : ""));
    for (String quote : demand.quotes()) {
      wrap(out, "      you wrote  ", "                 ", "\"" + quote + "\"");
    }
    if (!demand.why().isEmpty()) {
      wrap(out, "      because    ", "                 ", demand.why());
    }
    for (ResponseView.PointView point : demand.points()) {
      wrap(out, "      point      ", "                 ", point.name() + ": " + point.state());
    }
    if (demand.open()) {
      wrap(out, "      next       ", "                 ", demand.next());
    }
  }

  /** Writes a text in lines of bounded length, broken at spaces. */
  private static void wrap(PrintWriter out, String first, String others, String text) {
    StringBuilder line = new StringBuilder(first);
    boolean fresh = true;
    for (String word : text.split(" ", -1)) {
      if (!fresh && line.length() + 1 + word.length() > WIDTH) {
        out.println(line);
        line = new StringBuilder(others);
        fresh = true;
      }
      line.append(fresh ? "" : " ").append(word);
      fresh = false;
    }
    out.println(line);
  }
}

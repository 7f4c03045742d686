package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.Optional;

/** The result of one response as text for its writer. */
public final class CheckText {
  private final Colours colours;

  /** Makes a renderer. */
  public CheckText(Colours colours) {
    this.colours = colours;
  }

  /** Writes a result. */
  public void write(Coverage coverage, PrintWriter out) {
    write(coverage, Optional.empty(), out);
  }

  /**
   * Writes a result.
   *
   * @param revision what became of the demands since an earlier draft
   */
  public void write(Coverage coverage, Optional<Revision> revision, PrintWriter out) {
    ResponseView view = ResponseView.of(coverage, "r");
    out.println(colours.bold(coverage.prompt().title().orElse(coverage.prompt().id())));
    out.println(view.summary() + ".");
    revision.ifPresent(one -> Lines.wrap(out, "", "  ", one.sentence() + "."));
    for (String doubt : Doubts.of(coverage.prompt())) {
      Lines.wrap(out, Wording.of("page.lookFirst") + ": ", "  ", doubt);
    }
    if (view.empty()) {
      out.println(Wording.of("read.empty"));
    }
    for (ResponseView.PartView part : view.parts()) {
      out.println();
      Lines.wrap(
          out, "Part " + part.label() + "  ", "        ", Words.shortened(part.wording(), 160));
      if (part.demands().isEmpty()) {
        out.println("  " + Wording.of("read.noDemand"));
      }
      for (ResponseView.DemandView demand : part.demands()) {
        write(demand, out);
      }
      for (ResponseView.NearestView nearest : part.nearest()) {
        Lines.wrap(out, "      closest    ", "                 ", "\"" + nearest.quote() + "\"");
        Lines.wrap(out, "      not taken  ", "                 ", nearest.why());
      }
    }
    if (!view.remarks().isEmpty()) {
      out.println();
      view.remarks().forEach(remark -> Lines.wrap(out, "Note: ", "      ", remark));
    }
    out.println();
    Lines.wrap(out, "", "", Cautions.WRITER);
  }

  private void write(ResponseView.DemandView demand, PrintWriter out) {
    String word = demand.verdict().word();
    out.println(
        "  "
            + colours.verdict(
                word,
                demand.verdict().shape()
                    + " "
                    + String.format(Locale.ROOT, "%-11s", demand.verdict().name()))
            + " "
            + demand.words()
            + (demand.look() ? "   (not sure: look yourself)" : ""));
    for (String quote : demand.quotes()) {
      Lines.wrap(out, "      you wrote  ", "                 ", "\"" + quote + "\"");
    }
    if (!demand.why().isEmpty()) {
      Lines.wrap(out, "      because    ", "                 ", demand.why());
    }
    for (ResponseView.PointView point : demand.points()) {
      Lines.wrap(
          out, "      point      ", "                 ", point.name() + ": " + point.state());
    }
    if (demand.open()) {
      Lines.wrap(out, "      next       ", "                 ", demand.next());
    }
  }
}

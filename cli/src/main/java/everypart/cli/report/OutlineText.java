package everypart.cli.report;

import everypart.analyzer.points.Proposals;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.Remark;
import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * The parts and demands of a prompt as text for people: why each demand was read, from which words,
 * and what was set aside.
 */
public final class OutlineText {
  private static final int LONGEST = 160;

  private OutlineText() {}

  /** Writes one prompt. */
  public static void write(Prompt prompt, PrintWriter out) {
    write(prompt, Optional.empty(), out);
  }

  /**
   * Writes one prompt.
   *
   * @param proposals what a model answer suggests, when one was given
   */
  public static void write(Prompt prompt, Optional<Proposals> proposals, PrintWriter out) {
    int demands = prompt.parts().stream().mapToInt(part -> part.demands().size()).sum();
    out.println(
        prompt.title().map(title -> title + " (" + prompt.id() + ")").orElse(prompt.id())
            + ": "
            + Words.count(prompt.parts().size(), "part")
            + ", "
            + Words.count(demands, "demand"));
    doubts(prompt, out);
    for (int place = 0; place < prompt.parts().size(); place++) {
      Part part = prompt.parts().get(place);
      out.println();
      Lines.wrap(
          out, "  part " + part.label() + "  ", "    ", Words.shortened(wording(part), LONGEST));
      if (part.demands().isEmpty()) {
        out.println("    " + Wording.of("outline.noDemand"));
      }
      int number = 1;
      for (Demand demand : part.demands()) {
        Lines.wrap(out, "    " + number++ + ". ", "       ", Words.demand(demand));
        Lines.wrap(out, "       why   ", "             ", demand.why());
        demand
            .asking()
            .other()
            .ifPresent(
                other -> Lines.wrap(out, "       or    ", "             ", Doubts.reading(other)));
        String read = Words.oneLine(demand.span().of(prompt.text()));
        Lines.wrap(out, "       from  ", "             ", "\"" + read + "\"");
        if (!demand.points().isEmpty()) {
          String points =
              demand.points().stream().map(Point::name).collect(Collectors.joining("; "));
          Lines.wrap(out, "       points  ", "               ", points);
        }
        if (proposals.isPresent()) {
          propose(proposals.get().parts().get(place).points().get(number - 2), out);
        }
      }
    }
    setAside(prompt, out);
    out.println();
  }

  private static void propose(List<Point> points, PrintWriter out) {
    String names =
        points.isEmpty()
            ? Wording.of("outline.noPoints")
            : points.stream().map(Point::name).collect(Collectors.joining("; "));
    Lines.wrap(out, "       proposed points  ", "                        ", names);
  }

  private static String wording(Part part) {
    return part.text().isBlank() ? Wording.of("outline.noWording") : Words.oneLine(part.text());
  }

  private static void doubts(Prompt prompt, PrintWriter out) {
    for (String doubt : Doubts.of(prompt)) {
      Lines.wrap(out, "  look: ", "        ", doubt);
    }
  }

  private static void setAside(Prompt prompt, PrintWriter out) {
    List<Remark> remarks =
        prompt.remarks().stream().filter(one -> one.kind() == Remark.Kind.SET_ASIDE).toList();
    if (prompt.stimulus().isBlank() && remarks.isEmpty()) {
      return;
    }
    out.println();
    out.println("  set aside");
    if (!prompt.stimulus().isBlank()) {
      String stimulus = Words.oneLine(prompt.stimulus());
      Lines.wrap(
          out,
          "    ",
          "      ",
          "stimulus, "
              + Words.count(stimulus.split(" ").length, "word")
              + ": \""
              + Words.shortened(stimulus, LONGEST)
              + "\"");
    }
    for (Remark remark : remarks) {
      Lines.wrap(
          out,
          "    ",
          "      ",
          remark.message()
              + ": \""
              + Words.shortened(Words.oneLine(remark.span().of(prompt.text())), LONGEST)
              + "\"");
    }
  }
}

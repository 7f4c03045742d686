package everypart.cli.report;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.Remark;
import java.io.PrintWriter;

/** The parts and demands of a prompt as text for people. */
public final class OutlineText {
  private OutlineText() {}

  /** Writes one prompt. */
  public static void write(Prompt prompt, PrintWriter out) {
    int demands = prompt.parts().stream().mapToInt(part -> part.demands().size()).sum();
    out.println(
        prompt.title().map(title -> title + " (" + prompt.id() + ")").orElse(prompt.id())
            + ": "
            + Words.count(prompt.parts().size(), "part")
            + ", "
            + Words.count(demands, "demand"));
    for (Part part : prompt.parts()) {
      out.println("  part " + part.label());
      if (part.demands().isEmpty()) {
        out.println("    no demand found");
      }
      for (Demand demand : part.demands()) {
        out.println("    " + Words.demand(demand) + "   [" + Words.oneLine(demand.verb()) + "]");
      }
    }
    for (Remark remark : prompt.remarks()) {
      out.println(
          "  "
              + (remark.kind() == Remark.Kind.LOOK ? "look: " : "set aside: ")
              + remark.message()
              + " \""
              + Words.oneLine(remark.span().of(prompt.text()))
              + "\"");
    }
  }
}

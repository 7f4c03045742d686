package everypart.analyzer.judge;

import everypart.analyzer.judge.WordClasses.Form;
import everypart.analyzer.prompt.Part;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** The pieces of an experiment's design, and the words that name each. */
enum Design {
  CHANGED("the variable changed", Form.DESIGN_CHANGED),
  MEASURED("the variable measured", Form.DESIGN_MEASURED),
  CONTROL("a control", Form.DESIGN_CONTROL),
  CONSTANT("variables held constant", Form.DESIGN_CONSTANT),
  REPEATS("repeats", Form.DESIGN_REPEATS),
  HYPOTHESIS("a hypothesis or prediction", Form.DESIGN_HYPOTHESIS);

  private final String title;
  private final Form form;

  Design(String title, Form form) {
    this.title = title;
    this.form = form;
  }

  /** Tells whether a part asks for an experiment. */
  static boolean isAskedFor(Part part) {
    String text = part.text().toLowerCase(Locale.ROOT);
    return text.contains("experiment") || text.contains("investigation") || text.contains("trial");
  }

  /** Returns two sentences: which pieces are named, and which were not found. */
  static List<String> report(List<Clause> clauses) {
    List<String> named = new ArrayList<>();
    List<String> open = new ArrayList<>();
    for (Design piece : values()) {
      boolean found =
          clauses.stream()
              .anyMatch(clause -> (clause.classes() & WordClasses.bit(piece.form)) != 0);
      (found ? named : open).add(piece.title);
    }
    List<String> report = new ArrayList<>();
    if (!named.isEmpty()) {
      report.add("named: " + String.join(", ", named));
    }
    if (!open.isEmpty()) {
      report.add("not found: " + String.join(", ", open));
    }
    return report;
  }
}

package everypart.analyzer.judge;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import java.util.StringJoiner;

/** A demand in words, as the reader was trained to see it. */
final class DemandText {
  private DemandText() {}

  /**
   * Returns the kind of the demand among those of its part, its asking words, the part's wording
   * and the set-up: "describe, *explain*: why ... | Describe how ... | In a pond ...".
   */
  static String of(Prompt prompt, Part part, int place) {
    StringJoiner kinds = new StringJoiner(", ");
    for (int i = 0; i < part.demands().size(); i++) {
      String word = part.demands().get(i).kind().word();
      kinds.add(i == place && part.demands().size() > 1 ? "*" + word + "*" : word);
    }
    Demand demand = part.demands().get(place);
    String whole = flat(part.text());
    String asked =
        demand.span().end() <= prompt.text().length() ? flat(demand.span().of(prompt.text())) : "";
    boolean apart =
        part.demands().size() > 1 && asked.length() < whole.length() * 2 / 3 && !asked.isEmpty();
    return kinds + ": " + (apart ? asked + " | " : "") + whole + " | " + flat(prompt.stimulus());
  }

  private static String flat(String text) {
    return text.strip().replaceAll("\\s+", " ");
  }
}

package everypart.analyzer.judge;

import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import java.util.Locale;
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
    String asked = asked(prompt, demand);
    boolean apart =
        part.demands().size() > 1 && asked.length() < whole.length() * 2 / 3 && !asked.isEmpty();
    return kinds + ": " + (apart ? asked + " | " : "") + whole + " | " + flat(prompt.stimulus());
  }

  /**
   * Returns the same with the task verb put as the kind's own word, so that it makes no difference
   * which of several verbs of one meaning asks. Questions stay as they are.
   */
  static String plain(Prompt prompt, Part part, int place) {
    Demand demand = part.demands().get(place);
    String text = of(prompt, part, place);
    String asked = asked(prompt, demand);
    int verb = asked.toLowerCase(Locale.ROOT).indexOf(demand.verb().toLowerCase(Locale.ROOT));
    if (asked.endsWith("?") || demand.verb().isEmpty() || verb < 0) {
      return text;
    }
    String plain =
        asked.substring(0, verb)
            + demand.kind().word()
            + asked.substring(verb + demand.verb().length());
    return text.replace(asked, plain);
  }

  private static String asked(Prompt prompt, Demand demand) {
    return demand.span().end() <= prompt.text().length()
        ? flat(demand.span().of(prompt.text()))
        : "";
  }

  private static String flat(String text) {
    return text.strip().replaceAll("\\s+", " ");
  }
}

package everypart.cli.report;

import everypart.analyzer.prompt.Asking;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.Remark;
import everypart.lexicon.DemandKind;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** What a person should look at before relying on a reading of a prompt. */
public final class Doubts {
  private static final int LONGEST = 160;

  private Doubts() {}

  /** The doubts as a page shows them. */
  record Section(List<String> doubts) {}

  /** Returns a section with the doubts about some prompts; empty when there are none. */
  static List<Section> sections(Collection<Prompt> prompts) {
    List<String> doubts = of(prompts);
    return doubts.isEmpty() ? List.of() : List.of(new Section(doubts));
  }

  /** Returns each doubt as a sentence that quotes the words to look at; empty when none. */
  static List<String> of(Prompt prompt) {
    List<String> doubts = new ArrayList<>();
    prompt.remarks().stream()
        .filter(remark -> remark.kind() == Remark.Kind.LOOK)
        .map(remark -> sentence(prompt, remark))
        .forEach(doubts::add);
    String other = otherReadings(prompt);
    if (!other.isEmpty()) {
      doubts.add(other);
    }
    return doubts;
  }

  /** Returns one sentence about all demands that can be read in two ways; empty when none can. */
  private static String otherReadings(Prompt prompt) {
    List<String> readings = new ArrayList<>();
    for (Part part : prompt.parts()) {
      for (int i = 0; i < part.demands().size(); i++) {
        Demand demand = part.demands().get(i);
        String number = String.valueOf(i + 1);
        demand
            .asking()
            .other()
            .ifPresent(
                other ->
                    readings.add(
                        Wording.of(
                            "doubt.reading",
                            "part",
                            part.label(),
                            "number",
                            number,
                            "read",
                            kind(demand.kind(), demand.count()),
                            "other",
                            reading(other))));
      }
    }
    return readings.isEmpty()
        ? ""
        : Wording.of("doubt.readings", "readings", String.join("; ", readings));
  }

  /** Returns another reading in words, as in "explain" or "one to identify". */
  static String reading(Asking.OtherReading other) {
    return kind(other.kind(), other.count());
  }

  private static String kind(DemandKind kind, int count) {
    return kind.word() + (count > 1 ? " \u00d7 " + count : "");
  }

  /** Returns the doubts about some prompts, each with its prompt's id when there are several. */
  public static List<String> of(Collection<Prompt> prompts) {
    boolean several = prompts.size() > 1;
    return prompts.stream()
        .flatMap(
            prompt ->
                of(prompt).stream()
                    .map(doubt -> several ? "prompt " + prompt.id() + ": " + doubt : doubt))
        .toList();
  }

  private static String sentence(Prompt prompt, Remark remark) {
    String words = Words.oneLine(remark.span().of(prompt.text()));
    return remark.message()
        + (words.isEmpty() ? "" : ": look at \"" + Words.shortened(words, LONGEST) + "\"");
  }
}

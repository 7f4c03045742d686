package everypart.cli.report;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.Remark;
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
    return prompt.remarks().stream()
        .filter(remark -> remark.kind() == Remark.Kind.LOOK)
        .map(remark -> sentence(prompt, remark))
        .toList();
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

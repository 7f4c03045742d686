package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;
import everypart.lexicon.DemandKind;
import everypart.lexicon.Lexicon;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads a prompt from plain text or Markdown. One reader serves all threads. */
public final class PromptReader {
  private static final Pattern LABEL = Pattern.compile("(?m)^\\s*\\(([a-z])\\)\\s+");
  private static final Pattern VERB =
      Pattern.compile(
          "(?i)\\b(explain|describe|predict|justify|compare|calculate|why|how|what)\\b");

  /** Makes a reader. */
  public PromptReader(Lexicon lexicon) {}

  /** Reads a prompt. */
  public Prompt read(String id, String text) {
    List<Part> parts = new ArrayList<>();
    Matcher label = LABEL.matcher(text);
    int stimulusEnd = text.length();
    int start = -1;
    String name = "1";
    while (label.find()) {
      if (start < 0) {
        stimulusEnd = label.start();
      } else {
        parts.add(part(name, text, start, label.start()));
      }
      name = label.group(1);
      start = label.end();
    }
    if (start < 0) {
      start = 0;
      stimulusEnd = 0;
    }
    parts.add(part(name, text, start, text.length()));
    return new Prompt(
        id, Optional.empty(), text, text.substring(0, stimulusEnd).strip(), parts, List.of());
  }

  /** Reads the demands of a part's wording; spans count in the wording. */
  public List<Demand> demands(String wording) {
    return part("1", wording, 0, wording.length()).demands();
  }

  private static Part part(String label, String text, int start, int end) {
    List<Demand> demands = new ArrayList<>();
    Matcher verb = VERB.matcher(text).region(start, end);
    while (verb.find()) {
      String word = verb.group(1).toLowerCase(Locale.ROOT);
      DemandKind kind =
          switch (word) {
            case "why", "how" -> DemandKind.EXPLAIN;
            case "what" -> DemandKind.IDENTIFY;
            default -> DemandKind.of(word);
          };
      demands.add(
          new Demand(
              kind, word, 1, new Span(verb.start(), verb.end()), "", List.of(), "task verb"));
    }
    return new Part(
        label, text.substring(start, end).strip(), new Span(start, end), Optional.empty(), demands);
  }
}

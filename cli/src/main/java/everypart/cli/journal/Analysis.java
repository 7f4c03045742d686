package everypart.cli.journal;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.prompt.Prompt;

/** Tells what a response covers: the analyzer, or a journal before it. */
@FunctionalInterface
public interface Analysis {
  /** Returns what a response covers of its prompt; called on several threads at once. */
  Coverage analyze(Prompt prompt, String responseId, String text);
}

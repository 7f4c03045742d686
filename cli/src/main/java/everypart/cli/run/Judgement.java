package everypart.cli.run;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Arrival;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.Response;
import everypart.cli.journal.Analysis;
import everypart.cli.report.Exclusion;

/** What comes of one input: a result, or a problem in its place. */
public sealed interface Judgement {
  /** A response and its result. */
  record Judged(Response response, Coverage coverage) implements Judgement {}

  /** An input without a result, and the reason. */
  record Failed(InputProblem problem, Exclusion reason) implements Judgement {}

  /** Returns how many bytes of memory it may take to judge what came in. */
  static long bytes(Arrival arrival) {
    return arrival instanceof Response response ? Burden.of(response.text()) : 0;
  }

  /** Returns how many bytes of memory it may take to judge a text. */
  static long bytes(String text) {
    return text.isEmpty() ? 0 : Burden.of(text);
  }

  /** Returns what is said of a response for which there is not memory enough. */
  static Judgement withoutMemory(Arrival arrival) {
    return arrival instanceof Response response
        ? new Failed(tooLong(response), Exclusion.NOT_JUDGED)
        : new Failed((InputProblem) arrival, Exclusion.UNREADABLE);
  }

  /** Returns the problem of a response for which there is not memory enough. */
  static InputProblem tooLong(Response response) {
    return InputProblem.fault(
        response.place(),
        Sayings.of("judgement.responseTooLong", response.id()),
        Sayings.of("judgement.cutGiveProgram"));
  }

  /** Judges what came in. What goes wrong with one response never stops the rest. */
  static Judgement of(Arrival arrival, PromptSet prompts, Analysis analyzer) {
    if (arrival instanceof Response response) {
      try {
        Prompt prompt = prompts.of(response);
        return new Judged(response, analyzer.analyze(prompt, response.id(), response.text()));
      } catch (InputException e) {
        return new Failed(e.problem(), Exclusion.UNKNOWN_PROMPT);
      } catch (StackOverflowError e) {
        return new Failed(
            InputProblem.fault(
                response.place(),
                Sayings.of("judgement.responseBuiltToo", response.id()),
                Sayings.of("judgement.copyWordsInto")),
            Exclusion.NOT_JUDGED);
      } catch (RuntimeException e) {
        return new Failed(
            InputProblem.fault(
                response.place(),
                Sayings.of("judgement.responseBrokeProgram", response.id(), e),
                Sayings.of("judgement.pleaseReportFault")),
            Exclusion.NOT_JUDGED);
      }
    }
    return new Failed((InputProblem) arrival, Exclusion.UNREADABLE);
  }
}

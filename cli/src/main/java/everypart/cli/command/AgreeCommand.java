package everypart.cli.command;

import everypart.cli.intake.Codes;
import everypart.cli.intake.Codes.Item;
import everypart.cli.intake.Codes.Judged;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Sources;
import everypart.cli.report.Agreement;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Sets the program's verdicts beside people's codes. */
@Command(
    name = "agree",
    mixinStandardHelpOptions = true,
    header = "Shows how far the program's verdicts agree with people's codes.",
    description = {
      "",
      "The codes are a CSV file with the columns response_id, part, demand (its running number in"
          + " the part, from 1), code (1 addressed, 0 not, empty where left open) and, where there"
          + " are several, coder. The verdict partly counts as addressed; unchecked is left out.",
      "",
      "Precision of missing: of what the program calls missing, the share that the coder does too."
          + " Recall of missing: of what the coder calls missing, the share that the program finds."
    },
    footer = {
      "",
      "Example:",
      "  everypart agree --codes codes.csv --results report/results.jsonl",
      "",
      "Exit status: 0 done; 2 the call was wrong; 3 a row could not be used, the rest was done."
    })
final class AgreeCommand implements Callable<Integer> {
  private final Console console;

  @Option(
      names = "--codes",
      required = true,
      paramLabel = "FILE.csv",
      description = "People's codes; - reads standard input.")
  private String codes = "";

  @Option(
      names = "--results",
      required = true,
      paramLabel = "results.jsonl",
      description = "The verdicts, as screen and study write them.")
  private String results = "";

  AgreeCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InputException {
    Workshop workshop = new Workshop(console);
    Codes reader = new Codes(workshop.sources(), workshop.problems()::add);
    Map<Item, Judged> judged = reader.results(results);
    Map<String, Map<Item, Boolean>> coders = reader.codes(codes);
    PrintWriter out = console.out();
    Agreement.head(out);
    coders.forEach(
        (coder, coded) -> {
          Agreement all = Agreement.NONE;
          Map<String, Agreement> kinds = new TreeMap<>();
          List<Item> unknown = new ArrayList<>();
          for (Map.Entry<Item, Boolean> one : coded.entrySet()) {
            Judged verdict = judged.get(one.getKey());
            if (verdict == null) {
              unknown.add(one.getKey());
            } else if (!verdict.verdict().equals("unchecked")) {
              boolean addressed = !verdict.verdict().equals("missing");
              all = all.with(one.getValue(), addressed);
              kinds.merge(
                  verdict.kind(),
                  Agreement.NONE.with(one.getValue(), addressed),
                  (before, more) -> before.with(one.getValue(), addressed));
            }
          }
          all.line("program and " + coder, out);
          kinds.forEach((kind, agreement) -> agreement.line("  " + kind, out));
          if (!unknown.isEmpty()) {
            Item first = unknown.get(0);
            workshop
                .problems()
                .add(
                    InputProblem.fault(
                        Sources.place(codes),
                        unknown.size()
                            + " of "
                            + coder
                            + "'s codes are for a demand without a verdict, the first for response \""
                            + first.responseId()
                            + "\", part "
                            + first.part()
                            + ", demand "
                            + first.demand(),
                        "check the ids and numbers, or screen those responses too"));
          }
        });
    people(coders, out);
    return workshop.problems().exitStatus();
  }

  /** Writes how far each pair of people agree. */
  private static void people(Map<String, Map<Item, Boolean>> coders, PrintWriter out) {
    List<String> names = List.copyOf(coders.keySet());
    for (int i = 0; i < names.size(); i++) {
      for (int j = i + 1; j < names.size(); j++) {
        Map<Item, Boolean> second = coders.getOrDefault(names.get(j), Map.of());
        Agreement agreement = Agreement.NONE;
        for (Map.Entry<Item, Boolean> one :
            coders.getOrDefault(names.get(i), Map.of()).entrySet()) {
          Boolean other = second.get(one.getKey());
          if (other != null) {
            agreement = agreement.with(one.getValue(), other);
          }
        }
        agreement.line(names.get(j) + " and " + names.get(i), out);
      }
    }
  }
}

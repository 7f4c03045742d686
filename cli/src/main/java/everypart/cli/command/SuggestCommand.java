package everypart.cli.command;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.text.Text;
import everypart.cli.intake.Arrival;
import everypart.cli.intake.Arrivals;
import everypart.cli.intake.Choices;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Response;
import everypart.cli.intake.ResponseFiles;
import everypart.cli.intake.ResponseRows;
import everypart.cli.run.Console;
import everypart.cli.run.Problems;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import everypart.lexicon.MissingConcepts;
import everypart.lexicon.MissingPhrase;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Shows phrases that many responses use and no concept covers. */
@Command(name = "suggest", mixinStandardHelpOptions = true)
final class SuggestCommand implements Callable<Integer> {
  private static final List<String> ROWS = List.of(".jsonl", ".ndjson", ".gz");

  /** Beyond this, phrases are sentences, and the index of a large set outgrows the memory. */
  private static final int MOST_WORDS = 5;

  private final Console console;

  @Option(names = "--from", arity = "1..*", paramLabel = "RESPONSES")
  private List<String> from = List.of();

  @Option(names = "--prompts", paramLabel = "DIR")
  private @Nullable String prompts;

  @Option(names = "--against", arity = "1..*", paramLabel = "RESPONSES")
  private List<String> against = List.of();

  @Option(names = "--columns", paramLabel = "WHAT=COLUMN", split = ",")
  private Map<String, String> columns = new LinkedHashMap<>();

  @Option(names = "--most", paramLabel = "N")
  private int most = 20;

  @Option(names = "--least", paramLabel = "N")
  private int least = 3;

  @Option(names = "--longest", paramLabel = "N")
  private int longest = 3;

  @Option(names = "--no-examples")
  private boolean noExamples;

  @Spec
  @SuppressWarnings("NullAway.Init") // picocli sets it
  private CommandSpec spec;

  @Mixin private final LexiconOption lexicon = new LexiconOption();
  @Mixin private final LimitOption limit = new LimitOption();

  SuggestCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InputException, WrongCallException, IOException {
    if (from.isEmpty()) {
      throw new ParameterException(spec.commandLine(), Sayings.of("suggest.fromNeeded"));
    }
    number("--most", most, Integer.MAX_VALUE);
    number("--least", least, Integer.MAX_VALUE);
    number("--longest", longest, MOST_WORDS);
    Workshop workshop =
        new Workshop(
            console, limit.limits(), lexicon.folders(), Optional.empty(), Optional.empty());
    try (MissingConcepts missing = new MissingConcepts(workshop.lexicon(), longest)) {
      Collection<Prompt> asked = prompts == null ? List.of() : workshop.prompts(prompts).all();
      for (Prompt prompt : asked) {
        missing.ask(sentences(workshop, prompt.stimulus()));
        missing.ask(sentences(workshop, prompt.text()));
      }
      int read = read(workshop, asked, from, text -> missing.add(sentences(workshop, text)));
      if (!against.isEmpty()) {
        read(workshop, asked, against, text -> missing.compareWith(sentences(workshop, text)));
      }
      print(missing.ranked(least), read);
    }
    return workshop.problems().exitStatus();
  }

  private static void number(String option, int value, int highest) throws WrongCallException {
    if (value < 1 || value > highest) {
      throw new WrongCallException(
          highest == Integer.MAX_VALUE
              ? Sayings.of("suggest.number", option, value)
              : Sayings.of("suggest.numberUpTo", option, value, highest));
    }
  }

  /** Hands over the text of each response, and returns how many there were. */
  private int read(
      Workshop workshop, Collection<Prompt> prompts, List<String> names, Consumer<String> each)
      throws IOException {
    int read = 0;
    int faults = 0;
    for (String name : names) {
      try (Arrivals arrivals =
          ROWS.stream().anyMatch(name.toLowerCase(Locale.ROOT)::endsWith)
              ? ResponseRows.open(workshop.sources(), name)
              : new ResponseFiles(
                  workshop.sources(),
                  prompts,
                  new Choices(columns, Optional.empty(), false),
                  List.of(name),
                  workshop.problems()::add)) {
        while (arrivals.hasNext()) {
          Arrival arrival = arrivals.next();
          if (arrival instanceof Response response) {
            each.accept(response.text());
            read++;
          } else if (arrival instanceof InputProblem problem) {
            workshop.problems().add(problem);
            faults++;
          }
        }
      } catch (InputException e) {
        workshop.problems().add(e.problem());
        faults++;
      }
    }
    if (read == 0 && faults == 0) {
      workshop.problems().add(Problems.nothingRead(String.join(", ", names)));
    }
    return read;
  }

  private static List<MissingConcepts.Written> sentences(Workshop workshop, String raw) {
    Text text = workshop.analyzer().texts().read(raw);
    return text.sentences().stream()
        .map(sentence -> new MissingConcepts.Written(sentence.span().of(text.raw()), sentence))
        .toList();
  }

  private void print(List<MissingPhrase> ranked, int read) {
    PrintWriter out = console.text();
    if (read > 0 && ranked.isEmpty()) {
      out.println(Sayings.of("suggest.none", read, least));
    } else if (read > 0) {
      out.println(
          Sayings.of(
              against.isEmpty() ? "suggest.found" : "suggest.foundAgainst", ranked.size(), read));
    }
    for (MissingPhrase phrase : ranked.subList(0, Math.min(most, ranked.size()))) {
      out.println();
      out.println(
          Sayings.of(
              phrase.asked() ? "suggest.phraseAsked" : "suggest.phrase",
              phrase.phrase(),
              phrase.times(),
              phrase.responses(),
              String.format(Locale.ROOT, "%.0f", phrase.likelihoodRatio())));
      if (!noExamples) {
        out.println("  \"" + phrase.example().strip().replaceAll("\\s+", " ") + "\"");
      }
    }
    if (ranked.size() > most) {
      out.println();
      out.println(Sayings.of("suggest.more", ranked.size() - most));
    }
    out.flush();
  }
}

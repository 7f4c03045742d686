package everypart.cli.command;

import everypart.cli.run.Console;
import everypart.cli.run.ExitStatus;
import everypart.cli.run.Shown;
import everypart.cli.run.WrongCallException;
import everypart.lexicon.Concept;
import everypart.lexicon.Lexicon;
import everypart.lexicon.LexiconCheck;
import everypart.lexicon.LexiconException;
import everypart.lexicon.LexiconRemark;
import everypart.lexicon.RelationType;
import java.nio.file.Path;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What the author of a lexicon needs. */
@Command(name = "lexicon", mixinStandardHelpOptions = true, synopsisSubcommandLabel = "COMMAND")
final class LexiconCommand implements Runnable {
  @Spec
  @SuppressWarnings("NullAway.Init") // picocli sets it
  private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), Sayings.of("lexicon.noCommandGiven"));
  }

  /** Looks through a folder of lexicon files. */
  @Command(name = "check", mixinStandardHelpOptions = true)
  static final class Check implements Callable<Integer> {
    private final Console console;

    @Parameters(paramLabel = "DIR", descriptionKey = "DIR")
    private Path folder = Path.of("");

    Check(Console console) {
      this.console = console;
    }

    @Override
    public Integer call() {
      List<LexiconRemark> remarks;
      try {
        remarks = LexiconCheck.of(folder);
      } catch (LexiconException e) {
        throw e;
      } catch (RuntimeException | StackOverflowError e) {
        console.message(Sayings.of("lexicon.fileBuiltToo", folder));
        return ExitStatus.INPUT_LOST;
      }
      long errors = 0;
      for (LexiconRemark remark : remarks) {
        boolean error = remark.weight() == LexiconRemark.Weight.ERROR;
        errors += error ? 1 : 0;
        console.out().println((error ? "error: " : "note: ") + Shown.of(remark.sentence()) + ".");
      }
      console.out().println(Sayings.of("lexicon.counts", errors, remarks.size() - errors, folder));
      return errors > 0 ? ExitStatus.INPUT_LOST : ExitStatus.DONE;
    }
  }

  /** Looks a concept up. */
  @Command(name = "search", mixinStandardHelpOptions = true)
  static final class Search implements Callable<Integer> {
    private static final int MOST = 10;

    private final Console console;

    @Mixin private final LexiconOption lexicon = new LexiconOption();

    @Option(names = "--most", paramLabel = "N")
    private int most = MOST;

    @Parameters(arity = "1..*", paramLabel = "WORD", descriptionKey = "WORD")
    private List<String> words = List.of();

    Search(Console console) {
      this.console = console;
    }

    @Override
    public Integer call() throws WrongCallException {
      if (most < 1) {
        throw new WrongCallException(Sayings.of("lexicon.mostGiveNumber", most));
      }
      List<Concept> found = Lexicon.load(lexicon.folders()).search(String.join(" ", words), most);
      if (found.isEmpty()) {
        console.out().println(Sayings.of("lexicon.noConceptThese"));
      }
      for (Concept concept : found) {
        console.out().println(concept.name() + " (" + concept.field() + ")");
        line("also", concept.variants());
        line(Sayings.of("lexicon.goesWith"), concept.relates());
      }
      return ExitStatus.DONE;
    }

    private void line(String what, List<String> names) {
      if (!names.isEmpty()) {
        console.out().println("  " + what + ": " + String.join(", ", names));
      }
    }
  }

  /** Shows all that is known of one concept. */
  @Command(name = "show", mixinStandardHelpOptions = true)
  static final class Show implements Callable<Integer> {
    private static final int NEAREST = 8;

    private final Console console;

    @Mixin private final LexiconOption lexicon = new LexiconOption();

    @Parameters(arity = "1..*", paramLabel = "NAME", descriptionKey = "NAME")
    private List<String> words = List.of();

    Show(Console console) {
      this.console = console;
    }

    @Override
    public Integer call() throws WrongCallException {
      Lexicon all = Lexicon.load(lexicon.folders());
      String name = String.join(" ", words).toLowerCase(Locale.ROOT);
      List<Concept> shown =
          all.concept(name).map(List::of).orElseGet(() -> named(all.concepts(), name));
      if (shown.isEmpty()) {
        List<String> near = all.search(name, 3).stream().map(Concept::name).toList();
        throw new WrongCallException(
            Sayings.of(
                "lexicon.noConceptName",
                name,
                near.isEmpty() ? "." : Sayings.of("lexicon.near", String.join(", ", near))));
      }
      shown.forEach(concept -> show(all, concept));
      return ExitStatus.DONE;
    }

    private static List<Concept> named(Collection<Concept> concepts, String name) {
      return concepts.stream().filter(concept -> concept.names().contains(name)).toList();
    }

    private void show(Lexicon all, Concept concept) {
      console.out().println(concept.name() + " (" + concept.field() + ")");
      line("subject", concept.subject());
      line("unit", concept.unit());
      line("also", String.join(", ", concept.variants()));
      line(Sayings.of("lexicon.everydayWordsCounted"), String.join(", ", concept.everyday()));
      line(Sayings.of("lexicon.neverIn"), String.join(", ", concept.never()));
      Map<RelationType, List<String>> namedBy = all.namedBy(concept.name());
      for (RelationType type : RelationType.values()) {
        line(ahead(type), String.join(", ", concept.related(type)));
        if (type != RelationType.RELATES) {
          line(back(type), String.join(", ", namedBy.getOrDefault(type, List.of())));
        }
      }
      line("nearest", String.join(", ", nearest(all, concept)));
    }

    private static String ahead(RelationType type) {
      return switch (type) {
        case BROADER -> Sayings.of("lexicon.kind");
        case PART_OF -> Sayings.of("lexicon.part");
        case CAUSES -> Sayings.of("lexicon.leadsTo");
        case OPPOSITE -> Sayings.of("lexicon.opposite");
        case CONFUSED_WITH -> Sayings.of("lexicon.oftenConfused");
        case RELATES -> Sayings.of("lexicon.goesWith");
      };
    }

    private static String back(RelationType type) {
      return switch (type) {
        case BROADER -> Sayings.of("lexicon.kinds");
        case PART_OF -> Sayings.of("lexicon.parts");
        case CAUSES -> Sayings.of("lexicon.comesFrom");
        case OPPOSITE -> Sayings.of("lexicon.calledOpposite");
        case CONFUSED_WITH -> Sayings.of("lexicon.taken");
        case RELATES -> Sayings.of("lexicon.goesWith");
      };
    }

    private static List<String> nearest(Lexicon all, Concept concept) {
      record Near(String name, double relatedness) {}
      return all.concepts().stream()
          .filter(other -> !other.name().equals(concept.name()))
          .map(other -> new Near(other.name(), all.relatedness(concept.name(), other.name())))
          .filter(near -> near.relatedness() > 0)
          .sorted(Comparator.comparingDouble(Near::relatedness).reversed())
          .limit(NEAREST)
          .map(near -> String.format(Locale.ROOT, "%s %.2f", near.name(), near.relatedness()))
          .toList();
    }

    private void line(String what, String text) {
      if (!text.isEmpty()) {
        console.out().println("  " + what + ": " + text);
      }
    }
  }
}

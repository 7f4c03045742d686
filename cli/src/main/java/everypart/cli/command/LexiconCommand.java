package everypart.cli.command;

import everypart.lexicon.Concept;
import everypart.lexicon.Lexicon;
import everypart.lexicon.LexiconCheck;
import everypart.lexicon.LexiconException;
import everypart.lexicon.LexiconRemark;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** What the author of a lexicon needs. */
@Command(
    name = "lexicon",
    mixinStandardHelpOptions = true,
    synopsisSubcommandLabel = "COMMAND",
    header = "Checks lexicon files of your own, and looks concepts up.",
    footer = {
      "",
      "Examples:",
      "  everypart lexicon check my-words",
      "  everypart lexicon search osmosis",
      "  everypart lexicon search --lexicon my-words scarcity"
    })
final class LexiconCommand implements Runnable {
  @Spec
  @SuppressWarnings("NullAway.Init") // picocli sets it
  private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "no command was given: check or search");
  }

  /** Looks through a folder of lexicon files. */
  @Command(
      name = "check",
      mixinStandardHelpOptions = true,
      header = "Tells what is wrong with lexicon files, and which entries have no effect.",
      footer = {
        "",
        "Exit status: 0 nothing is wrong; 2 the call was wrong; 3 a file has an error."
      })
  static final class Check implements Callable<Integer> {
    private final Console console;

    @Parameters(paramLabel = "DIR", description = "The folder of lexicon files.")
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
        console.message(
            folder
                + ": a file in it is built too oddly to be read; write it anew, as docs/lexicon.md"
                + " shows.");
        return ExitStatus.INPUT_LOST;
      }
      long errors = 0;
      for (LexiconRemark remark : remarks) {
        boolean error = remark.weight() == LexiconRemark.Weight.ERROR;
        errors += error ? 1 : 0;
        console.out().println((error ? "error: " : "note: ") + Shown.of(remark.sentence()) + ".");
      }
      console
          .out()
          .println(errors + " errors, " + (remarks.size() - errors) + " notes in " + folder);
      return errors > 0 ? ExitStatus.INPUT_LOST : ExitStatus.DONE;
    }
  }

  /** Looks a concept up. */
  @Command(
      name = "search",
      mixinStandardHelpOptions = true,
      header = "Looks a concept up by its name, another name of it, or a concept it goes with.")
  static final class Search implements Callable<Integer> {
    private static final int MOST = 10;

    private final Console console;

    @Mixin private final LexiconOption lexicon = new LexiconOption();

    @Option(
        names = "--most",
        paramLabel = "N",
        description = "How many concepts to show (default: 10).")
    private int most = MOST;

    @Parameters(arity = "1..*", paramLabel = "WORD", description = "The words looked for.")
    private List<String> words = List.of();

    Search(Console console) {
      this.console = console;
    }

    @Override
    public Integer call() throws OutputException {
      if (most < 1) {
        throw new OutputException("--most " + most + ": give a number of concepts, at least 1.");
      }
      List<Concept> found = Lexicon.load(lexicon.folders()).search(String.join(" ", words), most);
      if (found.isEmpty()) {
        console.out().println("no concept has these words");
      }
      for (Concept concept : found) {
        console.out().println(concept.name() + " (" + concept.field() + ")");
        line("also", concept.variants());
        line("goes with", concept.relates());
      }
      return ExitStatus.DONE;
    }

    private void line(String what, List<String> names) {
      if (!names.isEmpty()) {
        console.out().println("  " + what + ": " + String.join(", ", names));
      }
    }
  }
}

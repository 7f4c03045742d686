package everypart.cli.run;

import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.judge.Reader;
import everypart.analyzer.meaning.SentenceMeaning;
import everypart.cli.intake.InputException;
import everypart.cli.intake.PromptFiles;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.Sources;
import everypart.cli.intake.document.Limits;
import everypart.lexicon.Lexicon;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * What every command needs for one run: the console, the problems met, the inputs, the analyzer.
 */
public final class Workshop {
  private final Console console;
  private final Problems problems;
  private final Sources sources;
  private final Lexicon lexicon;
  private final CoverageAnalyzer analyzer;

  public Workshop(Console console) {
    this(console, List.of(), Optional.empty(), Optional.empty());
  }

  /** Makes the workshop of a run with the usual bounds on inputs. */
  public Workshop(
      Console console,
      List<Path> lexicons,
      Optional<SentenceMeaning> meaning,
      Optional<Reader> reader) {
    this(console, Limits.USUAL, lexicons, meaning, reader);
  }

  /**
   * Makes the workshop of a run.
   *
   * @param limits how much an input may hold
   * @param lexicons folders of lexicon files to add to those of the program
   */
  public Workshop(
      Console console,
      Limits limits,
      List<Path> lexicons,
      Optional<SentenceMeaning> meaning,
      Optional<Reader> reader) {
    this(console, limits, Lexicon.load(lexicons), meaning, reader);
  }

  /** Makes the workshop of a run with a lexicon that was loaded before. */
  public Workshop(
      Console console,
      Limits limits,
      Lexicon lexicon,
      Optional<SentenceMeaning> meaning,
      Optional<Reader> reader) {
    this.lexicon = lexicon;
    this.analyzer = new CoverageAnalyzer(lexicon, meaning, reader);
    this.console = console;
    this.problems = new Problems(console);
    this.sources = new Sources(console.in(), limits, problems::add);
  }

  public Console console() {
    return console;
  }

  public Problems problems() {
    return problems;
  }

  public Sources sources() {
    return sources;
  }

  public Lexicon lexicon() {
    return lexicon;
  }

  public CoverageAnalyzer analyzer() {
    return analyzer;
  }

  public PromptFiles promptFiles() {
    return new PromptFiles(sources, analyzer.prompts(), problems::add);
  }

  /** Reads prompts that were read before, so that what is odd about them is not told twice. */
  public PromptSet promptsAgain(String name) throws InputException {
    return new PromptFiles(sources, analyzer.prompts(), problem -> {}).read(name);
  }

  public PromptSet prompts(String name) throws InputException {
    return promptFiles().read(name);
  }
}

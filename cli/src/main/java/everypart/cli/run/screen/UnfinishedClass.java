package everypart.cli.run.screen;

import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Checksum;
import everypart.cli.intake.PromptSet;
import everypart.cli.journal.Analysis;
import everypart.cli.journal.Journal;
import everypart.cli.report.Build;
import everypart.cli.report.OutputFile;
import everypart.cli.run.Unfinished;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** What is done of a class set: a journal of its results, which the next run asks first. */
final class UnfinishedClass extends Unfinished<Journal> {
  /** Options that change no result, or whose inputs are recognised by their content. */
  private static final Set<String> NO_SETTINGS =
      Set.of("--out", "--resume", "--earlier", "--lexicon", "--limit");

  /** Options that name a file: what is in it counts, not what it is called. */
  private static final Set<String> FILES = Set.of("--corrections", "--redact", "--register");

  /** The key is never written down, in no form. */
  private static final String KEY = "--pseudonyms";

  private final Path file;
  private final Map<String, String> basis;
  private final Analysis analyzer;

  /**
   * Takes a folder.
   *
   * @param basis what the results rest on, by name
   */
  UnfinishedClass(Path out, Map<String, String> basis, Analysis analyzer) {
    super(out);
    this.file = folder().resolve("journal.jsonl");
    this.basis = basis;
    this.analyzer = analyzer;
  }

  /**
   * Returns what the results of a call rest on, by name. No name of a file is in it.
   *
   * @param given the options of the call with what was given to each
   */
  static Map<String, String> basis(
      Map<String, List<String>> given, PromptSet prompts, Workshop workshop) throws IOException {
    Map<String, String> basis = new LinkedHashMap<>();
    basis.put(Sayings.of("unfinishedClass.versionProgram"), Build.version());
    for (Prompt prompt : prompts.all()) {
      basis.put(
          "prompt " + prompt.id(),
          Checksum.sha256(prompts.file(prompt)).orElse(Checksum.ofText(prompt.text())));
    }
    workshop
        .lexicon()
        .sources()
        .forEach(source -> basis.put("lexicon " + source.name(), source.sha256()));
    for (Map.Entry<String, List<String>> option : given.entrySet()) {
      String name = option.getKey();
      if (FILES.contains(name)) {
        String file = option.getValue().get(0);
        basis.put(name, Checksum.sha256(file).orElse(Checksum.ofText(file)));
      } else if (name.equals(KEY)) {
        basis.put(name, "given");
      } else if (!NO_SETTINGS.contains(name)) {
        basis.put(name, String.join(",", option.getValue()));
      }
    }
    return basis;
  }

  @Override
  public boolean present() throws IOException {
    return Journal.differences(file, basis).isPresent();
  }

  @Override
  protected void refuseOther() throws WrongCallException, IOException {
    Optional<List<String>> differing = Journal.differences(file, basis);
    if (differing.isPresent() && !differing.get().isEmpty()) {
      throw new WrongCallException(
          Sayings.of(
              "unfinishedClass.runStoppedBegun",
              folder(),
              String.join(", another ", differing.get())));
    }
  }

  @Override
  protected Journal goOn() throws IOException {
    return Journal.resume(file, analyzer);
  }

  @Override
  protected Journal begin() throws IOException {
    return Journal.begin(file, basis, analyzer);
  }

  @Override
  protected String nothingThere() {
    return Sayings.of("unfinishedClass.noRunGo", folder());
  }

  @Override
  protected String leftBehind() {
    return Sayings.of("unfinishedClass.runStoppedOne", folder());
  }

  /** Begins a file of the results. */
  OutputFile file(Path target) throws IOException {
    return new OutputFile(target, growing(target));
  }

  /** Clears away what was kept, since the run is whole. */
  void end(Journal journal) throws IOException {
    journal.finish();
    removeFolder();
  }
}

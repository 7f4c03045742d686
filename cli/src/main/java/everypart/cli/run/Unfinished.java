package everypart.cli.run;

import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Checksum;
import everypart.cli.intake.PromptSet;
import everypart.cli.journal.Analysis;
import everypart.cli.journal.Journal;
import everypart.cli.report.Build;
import everypart.cli.report.OutputFile;
import java.io.Closeable;
import java.io.IOException;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The folder {@code unfinished} in a run's output folder: what is done of a run that has not ended.
 * It is gone once the run is whole.
 */
public final class Unfinished implements Closeable {
  public static final String FOLDER = "unfinished";

  /** Options that change no result, or whose inputs are recognised by their content. */
  private static final Set<String> NO_SETTINGS =
      Set.of("--out", "--resume", "--earlier", "--lexicon", "--limit");

  /** Options that name a file: what is in it counts, not what it is called. */
  private static final Set<String> FILES = Set.of("--corrections", "--redact", "--register");

  /** The key is never written down, in no form. */
  private static final String KEY = "--pseudonyms";

  private final Path folder;
  private final Journal journal;

  private Unfinished(Path folder, Journal journal) {
    this.folder = folder;
    this.journal = journal;
  }

  /**
   * Opens the folder.
   *
   * @param resume whether to go on with what is in it
   * @throws OutputException when what is in it was begun in another way
   */
  public static Unfinished open(
      Path out, boolean resume, Map<String, String> basis, Analysis analyzer, Console console)
      throws OutputException, IOException {
    Path folder = out.resolve(FOLDER);
    Path file = folder.resolve("journal.jsonl");
    Optional<List<String>> differing = Journal.differences(file, basis);
    if (resume && differing.isPresent()) {
      if (!differing.get().isEmpty()) {
        throw new OutputException(
            Sayings.of(
                "unfinished.runStoppedBegun", folder, String.join(", another ", differing.get())));
      }
      return new Unfinished(folder, Journal.resume(file, analyzer));
    }
    if (resume) {
      console.message(Sayings.of("unfinished.noRunGo", folder));
    } else if (differing.isPresent()) {
      console.message(Sayings.of("unfinished.runStoppedOne", folder));
    }
    OutputFile.createFolder(folder);
    return new Unfinished(folder, Journal.begin(file, basis, analyzer));
  }

  /**
   * Returns what the results of a call rest on, by name. No name of a file is in it.
   *
   * @param given the options of the call with what was given to each
   */
  public static Map<String, String> basis(
      Map<String, List<String>> given, PromptSet prompts, Workshop workshop) throws IOException {
    Map<String, String> basis = new LinkedHashMap<>();
    basis.put(Sayings.of("unfinished.versionProgram"), Build.version());
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

  /** Returns the analyzer, with the journal before it. */
  public Journal journal() {
    return journal;
  }

  /** Begins a file that stands in this folder until it is whole. */
  public OutputFile file(Path target) throws IOException {
    return new OutputFile(target, folder.resolve(String.valueOf(target.getFileName())));
  }

  /** Takes the folder away, since the run is whole, but for what another run left in it. */
  public void finish() throws IOException {
    journal.finish();
    try {
      Files.deleteIfExists(folder);
    } catch (DirectoryNotEmptyException e) {
      // A study that was stopped in the same folder may still go on from there.
    }
  }

  @Override
  public void close() throws IOException {
    journal.close();
  }
}

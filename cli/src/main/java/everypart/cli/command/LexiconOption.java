package everypart.cli.command;

import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Option;

/** Folders of lexicon files to add to those of the program. */
final class LexiconOption {
  @Option(names = "--lexicon", paramLabel = "DIR")
  private List<Path> folders = List.of();

  List<Path> folders() {
    return List.copyOf(folders);
  }
}

package everypart.cli.command;

import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Option;

/** Folders of lexicon files to add to those of the program. */
final class LexiconOption {
  @Option(
      names = "--lexicon",
      paramLabel = "DIR",
      description = {
        "A folder with words of another subject: concepts*.yaml, cues*.yaml, task-verbs*.yaml."
            + " Entries are added, or take the place of those of the same name. May be given"
            + " several times."
      })
  private List<Path> folders = List.of();

  List<Path> folders() {
    return List.copyOf(folders);
  }
}

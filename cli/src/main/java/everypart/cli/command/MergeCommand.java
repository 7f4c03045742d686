package everypart.cli.command;

import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Sources;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Puts the shares of a study together. */
@Command(
    name = "merge",
    mixinStandardHelpOptions = true,
    header = "Puts the shares of a study together (study --shard).",
    description = {"", "The files come out just as if the study had been run in one piece."},
    footer = {
      "",
      "Example, the two halves on two machines:",
      "  everypart study --prompts questions --responses answers.csv --shard 1/2 --out one",
      "  everypart study --prompts questions --responses answers.csv --shard 2/2 --out two",
      "  everypart merge one two --out study",
      "",
      "Exit status: 0 done; 2 the call was wrong; 3 an input could not be used as given, the rest"
          + " was done."
    })
final class MergeCommand implements Callable<Integer> {
  private final Console console;

  @Parameters(
      arity = "1..*",
      paramLabel = "DIR",
      description = "The folders that study --shard wrote, all of them, in any order.")
  private List<Path> folders = List.of();

  @Option(
      names = "--out",
      required = true,
      paramLabel = "DIR",
      description = "The folder for the files of the whole study.")
  private Path out = Path.of("");

  MergeCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InputException, OutputException, IOException {
    Workshop workshop = new Workshop(console);
    TreeMap<Integer, StudyShare> shares = new TreeMap<>();
    for (Path folder : folders) {
      StudyShare share = StudyShare.open(workshop.sources(), folder);
      StudyShare before = shares.put(share.index(), share);
      if (before != null) {
        throw wrong(folder, "this is the same share as " + before.folder(), "give each share once");
      }
    }
    StudyShare first = shares.firstEntry().getValue();
    for (StudyShare share : shares.values()) {
      if (!share.whole().equals(first.whole())) {
        throw wrong(
            share.folder(),
            "this share is of another study than " + first.folder(),
            "run all shares with the same version, files and settings");
      }
      if (share.log().rows().read() != first.log().rows().read()) {
        throw wrong(
            share.folder(),
            "this share read "
                + share.log().rows().read()
                + " rows, "
                + first.folder()
                + " "
                + first.log().rows().read(),
            "run all shares on the same responses");
      }
    }
    int of = first.shares();
    for (int index = 1; index <= of; index++) {
      if (!shares.containsKey(index)) {
        throw wrong(first.folder(), "share " + index + " of " + of + " is missing", "give it too");
      }
    }
    return new StudyMerge(workshop, List.copyOf(shares.values())).run(out);
  }

  private static InputException wrong(Path folder, String what, String mend) {
    return new InputException(InputProblem.fault(Sources.place(folder.toString()), what, mend));
  }
}

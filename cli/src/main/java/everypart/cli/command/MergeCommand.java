package everypart.cli.command;

import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Sources;
import everypart.cli.run.Console;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import everypart.cli.run.study.StudyMerge;
import everypart.cli.run.study.StudyShare;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Puts the shares of a study together. */
@Command(name = "merge", mixinStandardHelpOptions = true)
final class MergeCommand implements Callable<Integer> {
  private final Console console;

  @Parameters(arity = "1..*", paramLabel = "DIR", descriptionKey = "DIR")
  private List<Path> folders = List.of();

  @Option(names = "--out", required = true, paramLabel = "DIR")
  private Path out = Path.of("");

  MergeCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws InputException, WrongCallException, IOException {
    Workshop workshop = new Workshop(console);
    TreeMap<Integer, StudyShare> shares = new TreeMap<>();
    for (Path folder : folders) {
      StudyShare share = StudyShare.open(workshop.sources(), folder);
      StudyShare before = shares.put(share.index(), share);
      if (before != null) {
        throw wrong(
            folder,
            Sayings.of("merge.sameShare", before.folder()),
            Sayings.of("merge.giveEachShare"));
      }
    }
    StudyShare first = shares.firstEntry().getValue();
    for (StudyShare share : shares.values()) {
      if (!share.whole().equals(first.whole())) {
        throw wrong(
            share.folder(),
            Sayings.of("merge.shareAnotherStudy", first.folder()),
            Sayings.of("merge.runAllShares"));
      }
      if (share.log().rows().read() != first.log().rows().read()) {
        throw wrong(
            share.folder(),
            Sayings.of(
                "merge.shareReadRows",
                share.log().rows().read(),
                first.folder(),
                first.log().rows().read()),
            Sayings.of("merge.runAllShares2"));
      }
    }
    int of = first.shares();
    for (int index = 1; index <= of; index++) {
      if (!shares.containsKey(index)) {
        throw wrong(
            first.folder(),
            Sayings.of("merge.shareMissing", index, of),
            Sayings.of("merge.giveToo"));
      }
    }
    return new StudyMerge(workshop, List.copyOf(shares.values())).run(out);
  }

  private static InputException wrong(Path folder, String what, String mend) {
    return new InputException(InputProblem.fault(Sources.place(folder.toString()), what, mend));
  }
}

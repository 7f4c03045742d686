package everypart.cli.command;

import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The program without a command. */
@Command(
    name = "everypart",
    mixinStandardHelpOptions = true,
    versionProvider = EverypartCommand.Version.class,
    synopsisSubcommandLabel = "COMMAND",
    header = "Tells whether a written answer addresses every part of its question.",
    description = {
      "",
      "It reads what a question demands, finds the words that answer each demand, and says which"
          + " demands are open. It never says whether an answer is right. Nothing leaves this"
          + " machine."
    },
    footer = {
      "",
      "Examples:",
      "  everypart open",
      "  everypart check question.txt answer.txt",
      "  everypart screen question.txt class.csv --out report",
      "  everypart outline question.txt",
      "",
      "everypart COMMAND --help says more."
    })
final class EverypartCommand implements Runnable {
  @Spec
  @SuppressWarnings("NullAway.Init") // picocli sets it
  private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "no command was given");
  }

  /** Reads the version from the jar's manifest. */
  static final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {name()};
    }

    static String name() {
      String version = EverypartCommand.class.getPackage().getImplementationVersion();
      return "everypart " + Optional.ofNullable(version).orElse("(not run from its jar)");
    }
  }
}

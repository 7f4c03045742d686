package everypart.cli.command;

import everypart.cli.report.Build;
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
    synopsisSubcommandLabel = "COMMAND")
final class EverypartCommand implements Runnable {
  @Spec
  @SuppressWarnings("NullAway.Init") // picocli sets it
  private CommandSpec spec;

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), Sayings.of("everypart.noCommandGiven"));
  }

  /** Reads the version from the jar's manifest. */
  static final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {Build.version()};
    }
  }
}

package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import everypart.cli.run.Console;
import everypart.cli.run.StatusLine;
import everypart.cli.run.Stop;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Collections;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;

/** Every command, option and file of a call is explained by the room's words, and by no others. */
class HelpTest {
  private final Set<String> asked = new TreeSet<>();
  private int options;

  /** The program as it reads a call, with nowhere to print to. */
  static CommandLine commandLine() {
    PrintWriter unread = new PrintWriter(new StringWriter());
    return Program.commandLine(
        new Console(
            InputStream.nullInputStream(),
            unread,
            unread,
            false,
            false,
            new StatusLine(unread, false),
            new Stop()));
  }

  @Test
  void eachCommandAndOptionHasItsWordsAndNoneAreLeftOver() {
    look(commandLine());
    assertTrue(options > 100, options + " options and files were looked at");
    Set<String> unused = new TreeSet<>(Collections.list(Sayings.bundle().getKeys()));
    unused.removeIf(key -> !key.startsWith("everypart.") && !key.matches("[a-z-]+"));
    unused.remove("everypart.noCommandGiven");
    unused.removeAll(asked);
    assertEquals(Set.of(), unused, "no help shows these");
  }

  private void look(CommandLine line) {
    CommandSpec command = line.getCommandSpec();
    String name = command.qualifiedName(".");
    assertFalse(
        String.join("", command.usageMessage().header()).isBlank(), name + " says what it does");
    for (String place : new String[] {"header", "description", "footer"}) {
      asked.add(name + ".usage." + place);
    }
    for (OptionSpec option : command.options()) {
      explained(name, option, option.longestName().replaceFirst("^-+", ""));
    }
    for (PositionalParamSpec file : command.positionalParameters()) {
      explained(name, file, file.paramLabel());
    }
    line.getSubcommands().values().forEach(this::look);
  }

  private void explained(String command, ArgSpec argument, String key) {
    options++;
    assertFalse(String.join("", argument.description()).isBlank(), command + " explains " + key);
    asked.add(command + "." + key);
    asked.add(key);
  }
}

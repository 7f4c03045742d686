package everypart.cli.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.reflect.Modifier;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class ExitStatusTest {
  private static final Pattern ROW = Pattern.compile("(?m)^\\| ([0-9]+(?:, [0-9]+)*) \\|");
  private static final Pattern TRAP = Pattern.compile("(?m)^trap 'exit ([0-9]+)' ([0-9]+)$");

  @Test
  void eachStatusStandsInTheTableOfTheDocsAndNoOther() throws Exception {
    String docs = Files.readString(Path.of("..", "docs", "formats.md"));
    String table = docs.substring(docs.indexOf("\n## Exit status"));
    int end = table.indexOf("\n## ", 1);
    Set<String> told = new TreeSet<>();
    ROW.matcher(end < 0 ? table : table.substring(0, end))
        .results()
        .flatMap(row -> Stream.of(row.group(1).split(", ")))
        .forEach(told::add);
    Set<String> known = new TreeSet<>();
    for (var field : ExitStatus.class.getFields()) {
      assertTrue(Modifier.isStatic(field.getModifiers()), field.getName());
      known.add(String.valueOf(field.getInt(null)));
    }
    assertEquals(known, told);
  }

  @Test
  void theLauncherEndsWithTheStatusOfEachSignal() throws Exception {
    String launcher = Files.readString(Path.of("bin", "everypart"));
    Set<Integer> ends = new TreeSet<>();
    for (MatchResult trap : TRAP.matcher(launcher).results().toList()) {
      int status = Integer.parseInt(trap.group(1));
      assertEquals(128 + Integer.parseInt(trap.group(2)), status);
      ends.add(status);
    }
    assertEquals(Set.of(ExitStatus.STOPPED, ExitStatus.TERMINATED), ends);
  }
}

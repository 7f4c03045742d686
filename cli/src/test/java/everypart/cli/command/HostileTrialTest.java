package everypart.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * One small hostile file of each family and use does no harm to the good files beside it; {@code
 * .ci/hostile} tries them all.
 */
class HostileTrialTest {
  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  @Test
  void smallHostileFilesDoNoHarm() throws IOException {
    HostileTrial trial = new HostileTrial(folder);
    Set<List<Object>> tried = new HashSet<>();
    List<String> faults = new ArrayList<>();
    for (HostileCases.Case one : HostileCases.all()) {
      if (!one.small() || !tried.add(List.of(one.family(), one.use()))) {
        continue;
      }
      Path own = HostileTrial.lay(folder.resolve("c" + tried.size()), one);
      trial
          .fault(one.use(), own, one.name())
          .ifPresent(fault -> faults.add(one.use() + " " + one.name() + ": " + fault));
      HostileTrial.remove(own);
    }
    assertTrue(tried.size() > 50, "hardly any were tried: " + tried.size());
    assertEquals(List.of(), faults);
  }

  @Test
  void harmIsSeen() throws IOException {
    HostileTrial trial = new HostileTrial(folder);
    HostileCases.Case silent =
        new HostileCases.Case(
            "hidden",
            HostileCases.Use.RESPONSE,
            ".hidden.txt",
            true,
            file -> Files.writeString(file, "They hide."));
    Path own = HostileTrial.lay(folder.resolve("c1"), silent);
    Optional<String> passedOver = trial.fault(silent.use(), own, silent.name());
    assertTrue(passedOver.orElse("").startsWith("it is not named"), passedOver.toString());
    HostileCases.Case other =
        new HostileCases.Case(
            "other",
            HostileCases.Use.RESPONSE,
            "m0.txt",
            true,
            file -> Files.writeString(file, "No."));
    Path changed = HostileTrial.lay(folder.resolve("c2"), other);
    Optional<String> harmed = trial.fault(other.use(), changed, other.name());
    assertTrue(harmed.orElse("").startsWith("a good file is not"), harmed.toString());
  }
}

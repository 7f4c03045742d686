package everypart.cli;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/** R and Python, where they are installed with what the scripts of a study need. */
public enum Interpreter {
  /** R with lme4, and jsonlite for what is computed anew. */
  R(
      "model.R",
      "Rscript with lme4 and jsonlite (Debian: r-base-core, r-cran-lme4, r-cran-jsonlite)",
      List.of("Rscript"),
      List.of("-e", "library(lme4); library(jsonlite)")),
  /** Python with statsmodels. */
  PYTHON(
      "model.py",
      "python3 with statsmodels (Debian: python3-statsmodels)",
      List.of("python3", "/usr/bin/python3"),
      List.of("-c", "import statsmodels.api, pandas"));

  private final String script;
  private final String needs;
  private final Optional<String> program;

  Interpreter(String script, String needs, List<String> names, List<String> trial) {
    this.script = script;
    this.needs = needs;
    this.program =
        names.stream()
            .filter(name -> Programs.run(Stream.concat(Stream.of(name), trial.stream()).toList()))
            .findFirst();
  }

  /** Returns the name of the script it runs. */
  public String script() {
    return script;
  }

  /** Runs the script of a study in its folder and returns what it prints; skips without it. */
  public String run(Path folder) throws IOException, InterruptedException {
    return run(folder, script);
  }

  /** Runs another script in a folder and returns what it prints; skips without the interpreter. */
  public String run(Path folder, String other) throws IOException, InterruptedException {
    assumeTrue(program.isPresent(), needs + " is not installed: " + other + " is not run");
    Process process =
        new ProcessBuilder(program.get(), other)
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .start();
    String printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    if (!process.waitFor(5, TimeUnit.MINUTES) || process.exitValue() != 0) {
      throw new IOException(other + " ended with " + process.exitValue() + ": " + printed);
    }
    return printed;
  }
}

package everypart.meaning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the README shows of the program with its reader is what both jars print. */
@Tag("slow")
class ReadmeIT {
  private static final Path ROOT = Path.of("..", "..").toAbsolutePath().normalize();
  private static final Path README = ROOT.resolve("README.md");
  private static final Pattern BLOCK =
      Pattern.compile("(?<=\\n\\n)(?:^ {4}.*\\n|^\\n(?= {4}))+", Pattern.MULTILINE);

  @TempDir
  @SuppressWarnings("NullAway.Init")
  Path folder;

  private String run(String... arguments) throws Exception {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-jar", ROOT.resolve("cli/target/everypart.jar").toString()));
    command.addAll(List.of(arguments));
    Path out = folder.resolve("out");
    Process process =
        new ProcessBuilder(command)
            .directory(ROOT.toFile())
            .redirectOutput(out.toFile())
            .redirectError(folder.resolve("err").toFile())
            .start();
    assertEquals(0, process.waitFor(), () -> command.toString());
    return Files.readString(out);
  }

  /** The block of the page that begins so, its words as a pattern: "..." is anything. */
  private static Pattern shown(String first) throws IOException {
    Matcher block = BLOCK.matcher(Files.readString(README));
    while (block.find()) {
      if (block.group().strip().startsWith(first)) {
        return Pattern.compile(
            block
                .group()
                .lines()
                .map(
                    line ->
                        Arrays.stream(line.strip().split("\\.\\.\\.", -1))
                            .map(Pattern::quote)
                            .collect(Collectors.joining(".*")))
                .collect(Collectors.joining("\\h*\\r?\\n\\h*")));
      }
    }
    throw new AssertionError("the README does not show: " + first);
  }

  private static void assertShown(String first, String printed) throws IOException {
    Pattern shown = shown(first);
    assertTrue(shown.matcher(printed).find(), () -> shown + "\nwas shown, and printed\n" + printed);
  }

  @Test
  void theReadmeShowsWhatIsPrinted() throws Exception {
    assertTrue(Files.exists(ROOT.resolve("cli/target/everypart-meaning.jar")));
    Path answer = folder.resolve("s02.txt");
    Matcher row =
        Pattern.compile("(?m)^s02,[^\"]*\"((?:[^\"]|\"\")*)\"")
            .matcher(Files.readString(ROOT.resolve("demo-data/class.csv")));
    assertTrue(row.find(), "the class has s02");
    Files.writeString(answer, row.group(1).replace("\"\"", "\""));
    assertShown("Part b", run("check", "demo-data/prompts/lost-star.txt", answer.toString()));
    Path study = folder.resolve("study");
    Matcher call =
        Pattern.compile("cli/bin/everypart (study --prompts(?:.*\\\\\\n)*.*) --out \\S+\\n")
            .matcher(Files.readString(README));
    assertTrue(call.find(), "the README shows a study");
    String words = call.group(1).replace("\\\n", " ") + " --out " + study;
    run(words.split("\\s+"));
    assertShown("response_id,", Files.readString(study.resolve("demands.csv")));
    assertShown(
        "n  agreement",
        run("agree", "--codes", "demo-data/codes.csv", "--results", study + "/results.jsonl"));
  }
}

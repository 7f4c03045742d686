package everypart.spark;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The page on Spark shows the code that {@link DemandRowsIT} runs. */
final class SparkPageTest {
  private static final Path PAGE = Path.of("..", "..", "docs").resolve("spark.md");
  private static final Path CODE = Path.of("src/test/java/everypart/spark");

  @ParameterizedTest
  @ValueSource(strings = {"DemandRows", "StudyTallies"})
  void thePageShowsTheCodeThatIsTestedHere(String name) throws IOException {
    String code =
        Files.readString(CODE.resolve(name + ".java"))
            .replaceFirst("(?s)^package everypart.spark;\n\n", "");
    assertTrue(
        Files.readString(PAGE).contains("```java\n" + code + "```"), PAGE + " shows other code");
  }

  @ParameterizedTest
  @ValueSource(strings = {"PromptFiles reader =", "StudyTally tally ="})
  void thePageShowsCallsThatAreTestedHere(String first) throws IOException {
    String page = Files.readString(PAGE);
    int from = page.indexOf("```java\n" + first) + "```java\n".length();
    String calls = page.substring(from, page.indexOf("```", from));
    assertTrue(calls.startsWith(first), "the page does not show " + first);
    String code = Files.readString(CODE.resolve("SparkUse.java")).replace("return rows", "rows");
    assertTrue(
        code.contains(Pattern.compile("(?m)^(?=.)").matcher(calls).replaceAll("    ")), calls);
  }
}

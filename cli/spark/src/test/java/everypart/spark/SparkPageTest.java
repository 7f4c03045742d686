package everypart.spark;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The page on Spark shows the code that {@link DemandRowsIT} runs. */
final class SparkPageTest {
  @ParameterizedTest
  @ValueSource(strings = {"DemandRows", "StudyTallies"})
  void thePageShowsTheCodeThatIsTestedHere(String name) throws IOException {
    String page = Files.readString(Path.of("..", "..", "docs", "spark.md"));
    String code =
        Files.readString(Path.of("src/test/java/everypart/spark/" + name + ".java"))
            .replaceFirst("(?s)^package everypart.spark;\n\n", "");
    assertTrue(page.contains("```java\n" + code + "```"), "docs/spark.md shows other code");
  }
}

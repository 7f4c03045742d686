package everypart.cli;

import static com.tngtech.archunit.base.DescribedPredicate.alwaysTrue;
import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.belongToAnyOf;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The arrows between the rooms of the house. */
class ArchitectureTest {
  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("everypart");

  /** A rule must not pass because nothing was scanned: each room holds at least so many classes. */
  private static final Map<String, Integer> LEAST =
      Map.ofEntries(
          Map.entry("everypart.lexicon..", 8),
          Map.entry("everypart.analyzer.text..", 8),
          Map.entry("everypart.analyzer.prompt..", 5),
          Map.entry("everypart.analyzer.assign..", 2),
          Map.entry("everypart.analyzer.judge..", 4),
          Map.entry("everypart.analyzer.coverage..", 5),
          Map.entry("everypart.cli.intake..", 8),
          Map.entry("everypart.cli.intake.document", 30),
          Map.entry("everypart.cli.journal..", 3),
          Map.entry("everypart.cli.open..", 7),
          Map.entry("everypart.cli.table..", 2),
          Map.entry("everypart.cli.report..", 10),
          Map.entry("everypart.cli.run", 14),
          Map.entry("everypart.cli.run.screen", 3),
          Map.entry("everypart.cli.run.study", 12),
          Map.entry("everypart.cli.command..", 12));

  private static final Map<String, ArchRule> RULES =
      Map.of(
          "no cycles between packages",
              slices().matching("everypart.(**)").should().beFreeOfCycles(),
          "picocli stays in cli.command",
              noClasses()
                  .that()
                  .resideOutsideOfPackage("everypart.cli.command..")
                  .should()
                  .dependOnClassesThat()
                  .resideInAPackage("picocli.."),
          "Lucene and its stemmers stay in lexicon",
              noClasses()
                  .that()
                  .resideOutsideOfPackage("everypart.lexicon..")
                  .should()
                  .dependOnClassesThat()
                  .resideInAnyPackage("org.apache.lucene..", "org.tartarus.."),
          "OpenNLP stays in analyzer.text",
              noClasses()
                  .that()
                  .resideOutsideOfPackage("everypart.analyzer.text..")
                  .should()
                  .dependOnClassesThat()
                  .resideInAPackage("opennlp.."),
          "the lexicon knows neither analyzer nor cli",
              noClasses()
                  .that()
                  .resideInAPackage("everypart.lexicon..")
                  .should()
                  .dependOnClassesThat()
                  .resideInAnyPackage("everypart.analyzer..", "everypart.cli.."),
          "the analyzer does not know the cli",
              noClasses()
                  .that()
                  .resideInAPackage("everypart.analyzer..")
                  .should()
                  .dependOnClassesThat()
                  .resideInAPackage("everypart.cli.."),
          "only the main class touches the standard streams",
              noClasses()
                  .that()
                  .doNotHaveFullyQualifiedName("everypart.cli.Main")
                  .should()
                  .accessField(System.class, "out")
                  .orShould()
                  .accessField(System.class, "err")
                  .orShould()
                  .accessField(System.class, "in"),
          "only the main class exits",
              noClasses()
                  .that()
                  .doNotHaveFullyQualifiedName("everypart.cli.Main")
                  .should()
                  .callMethod(System.class, "exit", int.class)
                  .orShould()
                  .callMethod(Runtime.class, "exit", int.class)
                  .orShould()
                  .callMethod(Runtime.class, "halt", int.class),
          "nothing opens a network connection",
              noClasses()
                  .that()
                  .resideOutsideOfPackage("everypart.cli.open..")
                  .should()
                  .dependOnClassesThat(
                      resideInAPackage("java.net..")
                          .or(resideInAPackage("javax.net.."))
                          .or(resideInAPackage("com.sun.net.."))),
          "the analyzer touches no files",
              noClasses()
                  .that()
                  .resideInAPackage("everypart.analyzer..")
                  .should()
                  .dependOnClassesThat()
                  .resideInAPackage("java.nio.file.."));

  @TestFactory
  Stream<DynamicTest> keepsTheRule() {
    return RULES.entrySet().stream()
        .sorted(Map.Entry.comparingByKey())
        .map(rule -> DynamicTest.dynamicTest(rule.getKey(), () -> rule.getValue().check(CLASSES)));
  }

  @TestFactory
  Stream<DynamicTest> scansEveryRoom() {
    return LEAST.entrySet().stream()
        .sorted(Map.Entry.comparingByKey())
        .map(
            room ->
                DynamicTest.dynamicTest(
                    room.getKey(),
                    () -> {
                      long found = CLASSES.that(resideInAPackage(room.getKey())).stream().count();
                      assertTrue(
                          found >= room.getValue(), room.getKey() + " holds " + found + " classes");
                    }));
  }

  @Test
  void theRoomOfDocumentsHasOneDoor() {
    Set<String> doors =
        CLASSES.that(resideInAPackage("everypart.cli.intake.document")).stream()
            .filter(one -> one.getModifiers().contains(JavaModifier.PUBLIC))
            .filter(one -> !one.isRecord() && !one.isEnum())
            .filter(
                one ->
                    Stream.concat(one.getConstructors().stream(), one.getMethods().stream())
                        .filter(way -> way.getModifiers().contains(JavaModifier.PUBLIC))
                        .anyMatch(
                            way ->
                                way.isConstructor()
                                    || way.getModifiers().contains(JavaModifier.STATIC)))
            .map(JavaClass::getSimpleName)
            .collect(Collectors.toSet());
    assertEquals(Set.of("Documents"), doors);
  }

  @Test
  void theRoomOfDocumentsKnowsNothingOfQuestionsAndAnswers() {
    noClasses()
        .that()
        .resideInAPackage("everypart.cli.intake.document")
        .should()
        .dependOnClassesThat(
            resideInAPackage("everypart..")
                .and(
                    not(
                        resideInAnyPackage(
                            "everypart.cli.intake.document",
                            "everypart.analyzer.wording",
                            "everypart.lexicon"))))
        .check(CLASSES);
  }

  @Test
  void theLocalPageListensAndOpensNoConnection() {
    noClasses()
        .that()
        .resideInAPackage("everypart.cli.open..")
        .should()
        .dependOnClassesThat(
            resideInAPackage("java.net..")
                .and(
                    not(
                        belongToAnyOf(
                            java.net.InetAddress.class,
                            java.net.InetSocketAddress.class,
                            java.net.URI.class,
                            java.net.URLDecoder.class)))
                .or(resideInAPackage("javax.net..")))
        .check(CLASSES);
  }

  @Test
  void scansTheMainClass() {
    assertTrue(CLASSES.contain(Main.class) && !CLASSES.that(alwaysTrue()).isEmpty());
  }
}

package everypart.cli.run.study;

import everypart.analyzer.study.agreement.Agreement;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.agreement.Stratum;
import everypart.analyzer.study.statistics.Level;
import everypart.cli.intake.Codes;
import everypart.cli.intake.Codes.Item;
import everypart.cli.intake.Codes.Judged;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.JudgedResults;
import everypart.cli.intake.Sources;
import everypart.cli.report.Disagreement;
import everypart.cli.run.Problems;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** People's codes beside the program's verdicts, with what the codes were drawn from. */
public final class CodedSet {
  /** How many resamples the bootstrap of alpha draws. */
  private static final int RESAMPLES = 1000;

  private final String file;
  private final Codes.Coded coded;
  private final JudgedResults.Verdicts verdicts;
  private final Optional<Codes.Design> design;

  private CodedSet(
      String file,
      Codes.Coded coded,
      JudgedResults.Verdicts verdicts,
      Optional<Codes.Design> design) {
    this.file = file;
    this.coded = coded;
    this.verdicts = verdicts;
    this.design = design;
  }

  /**
   * Reads codes and verdicts.
   *
   * @param file the codes, several with commas between
   * @param designFile what a sample was drawn from; looked for beside the codes when not given
   * @throws InputException when something cannot be read, or codes of a sample lack their design
   */
  public static CodedSet read(
      Workshop workshop, String file, Optional<String> designFile, String results)
      throws InputException {
    Codes reader = new Codes(workshop.sources(), workshop.problems()::add);
    JudgedResults judged = new JudgedResults(workshop.sources(), workshop.problems()::add);
    Codes.Coded coded = reader.codes(file);
    Optional<Codes.Design> design = Optional.empty();
    Optional<String> found = designFile.or(() -> beside(file));
    if (!coded.samples().isEmpty()) {
      if (found.isEmpty()) {
        throw wrong(
            file, Sayings.of("codedSet.theseCodesSample"), Sayings.of("codedSet.giveDesignFile"));
      }
      design = Optional.of(reader.design(found.get()));
      if (!coded.samples().equals(Set.of(design.get().name()))) {
        throw wrong(
            file,
            Sayings.of(
                "codedSet.theseCodesSample2",
                String.join(" and ", coded.samples()),
                found.get(),
                design.get().name()),
            Sayings.of("codedSet.giveCodesOne"));
      }
    } else if (designFile.isPresent()) {
      throw wrong(file, Sayings.of("codedSet.theseCodesDo"), Sayings.of("codedSet.leaveOutDesign"));
    }
    return new CodedSet(file, coded, judged.results(results, coded), design);
  }

  private static Optional<String> beside(String codes) {
    for (String file : codes.split(",")) {
      Path path = Path.of(file);
      for (Path design : List.of(CodingSampler.designOf(path), path.resolveSibling("design.csv"))) {
        if (Files.isRegularFile(design)) {
          return Optional.of(design.toString());
        }
      }
    }
    return Optional.empty();
  }

  private static InputException wrong(String file, String what, String mend) {
    return new InputException(InputProblem.fault(Sources.place(file), what, mend));
  }

  /** Returns the name of the sample; empty without one. */
  public String sample() {
    return design.map(Codes.Design::name).orElse("");
  }

  /**
   * Checks that the responses have a column.
   *
   * @throws WrongCallException when they have not
   */
  public void checkColumn(String column) throws WrongCallException {
    if (verdicts.judged().values().stream().noneMatch(one -> one.groups().containsKey(column))) {
      throw new WrongCallException(Sayings.of("codedSet.resultsNoColumn", column));
    }
  }

  /**
   * Sets codes beside verdicts; codes that cannot be used are told of.
   *
   * @param cluster the column that names what answers come from together; the response without it
   */
  public Agreement agreement(Optional<String> cluster, Level level, long seed, Problems problems)
      throws WrongCallException {
    if (cluster.isPresent()) {
      checkColumn(cluster.get());
    }
    List<CodedDemand> demands = new ArrayList<>();
    Map<Stratum, Integer> counts = new HashMap<>();
    List<Item> strangers = new ArrayList<>();
    verdicts
        .judged()
        .forEach(
            (name, judged) -> {
              if (design.isPresent() && !design.get().drawn().contains(judged.item())) {
                strangers.add(judged.item());
                return;
              }
              CodedDemand demand = demand(name, judged, cluster);
              demands.add(demand);
              demand.stratum().ifPresent(stratum -> counts.merge(stratum, 1, Integer::sum));
            });
    tell(
        strangers,
        Sayings.of("codedSet.codedDemandSample"),
        Sayings.of("codedSet.codedDemandsSample"),
        problems);
    for (var coder : coded.coders().entrySet()) {
      tell(
          coder.getValue().keySet().stream()
              .filter(item -> !verdicts.judged().containsKey(item))
              .filter(item -> !verdicts.leftOut().contains(item))
              .toList(),
          Sayings.of("codedSet.codeDemandWithout", coder.getKey()),
          Sayings.of("codedSet.codesDemandsWithout", coder.getKey()),
          problems);
    }
    Map<Stratum, Long> sizes = design.map(Codes.Design::sizes).orElse(verdicts.sizes());
    boolean drawn = design.isPresent() || !coded.weights().isEmpty();
    return new Agreement(
        design.isPresent() ? weighed(demands, counts, sizes) : demands,
        level,
        RESAMPLES,
        seed,
        drawn,
        sizes);
  }

  private void tell(List<Item> items, String one, String several, Problems problems) {
    if (!items.isEmpty()) {
      Item first = items.get(0);
      problems.add(
          InputProblem.fault(
              Sources.place(file),
              Sayings.of(
                  "codedSet.firstResponsePart",
                  items.size(),
                  items.size() == 1 ? one : several,
                  first.responseId(),
                  first.part(),
                  first.demand()),
              Sayings.of("codedSet.checkIdsNumbers")));
    }
  }

  private CodedDemand demand(Item name, Judged judged, Optional<String> cluster) {
    Item item = judged.item();
    String response = item.promptId() + "\n" + item.responseId();
    return new CodedDemand(
        item.responseId(),
        item.promptId(),
        item.part(),
        item.demand(),
        judged.kind(),
        judged.verdict(),
        judged.confidence(),
        judged.look(),
        coded.codes(name),
        coded.weights().getOrDefault(name, 1.0),
        cluster
            .map(column -> judged.groups().getOrDefault(column, ""))
            .filter(value -> !value.isBlank())
            .orElse(response),
        judged.groups());
  }

  /**
   * A demand stands for its stratum's size over the number coded, which may be below that drawn.
   */
  private static List<CodedDemand> weighed(
      List<CodedDemand> demands, Map<Stratum, Integer> counts, Map<Stratum, Long> sizes) {
    return demands.stream()
        .map(
            demand ->
                demand
                    .stratum()
                    .map(
                        stratum ->
                            demand.weighing(
                                (double) sizes.getOrDefault(stratum, 1L)
                                    / counts.getOrDefault(stratum, 1)))
                    .orElse(demand))
        .toList();
  }

  /** Returns what a reader needs to see of a demand. */
  public Disagreement describe(CodedDemand demand, Optional<String> text) {
    Optional<Judged> judged =
        verdicts.judged().values().stream()
            .filter(
                one ->
                    one.item()
                        .equals(
                            new Item(
                                demand.promptId(),
                                demand.responseId(),
                                demand.part(),
                                demand.demand())))
            .findFirst();
    return new Disagreement(
        demand.codes().entrySet().stream()
            .map(code -> code.getKey() + " " + (code.getValue() ? "1" : "0"))
            .collect(Collectors.joining(", ")),
        judged.map(Judged::quotes).orElse(List.of()),
        judged.map(Judged::why).orElse(List.of()),
        text);
  }
}

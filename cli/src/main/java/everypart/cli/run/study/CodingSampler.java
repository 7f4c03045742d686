package everypart.cli.run.study;

import everypart.analyzer.prompt.Part;
import everypart.analyzer.study.agreement.CodedDemand;
import everypart.analyzer.study.agreement.CodingSample;
import everypart.analyzer.study.agreement.Stratum;
import everypart.cli.intake.Arrival;
import everypart.cli.intake.Arrivals;
import everypart.cli.intake.Checksum;
import everypart.cli.intake.Codes;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.JudgedResults;
import everypart.cli.intake.PromptSet;
import everypart.cli.intake.Response;
import everypart.cli.intake.ResponseRows;
import everypart.cli.intake.UniqueIds;
import everypart.cli.report.Codebook;
import everypart.cli.report.CodingSheet;
import everypart.cli.report.OutputFile;
import everypart.cli.run.Workshop;
import everypart.cli.run.WrongCallException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.Consumer;

/** Draws demands for people to code and writes their sheets, which do not show any verdict. */
public final class CodingSampler {
  public static final String FOLDER = "coding";

  private final long seed;
  private final int size;
  private final int coders;
  private final double overlap;

  /** Returns the texts of some responses. */
  public interface Texts {
    Map<String, String> of(Set<String> responses) throws InputException, IOException;
  }

  /**
   * Takes what is asked for.
   *
   * @param size how many demands to draw
   * @param coders how many people code
   * @param overlap the share of demands that all of them code
   * @throws WrongCallException when that cannot be
   */
  public CodingSampler(long seed, int size, int coders, double overlap) throws WrongCallException {
    check(size, coders, overlap);
    this.seed = seed;
    this.size = size;
    this.coders = coders;
    this.overlap = overlap;
  }

  private static void check(int size, int coders, double overlap) throws WrongCallException {
    if (size < 1) {
      throw new WrongCallException(Sayings.of("codingSampler.sampleGiveNumber", size));
    }
    if (coders < 1 || coders > 50) {
      throw new WrongCallException(Sayings.of("codingSampler.codersGiveNumber", coders));
    }
    if (!(overlap >= 0 && overlap <= 1)) {
      throw new WrongCallException(Sayings.of("codingSampler.overlapGiveShare", overlap));
    }
  }

  private record Candidate(Codes.Item item, Codes.Judged judged) {}

  /** What was drawn, and from what. */
  private record Draw(
      String name, List<CodingSample.Drawn<Candidate>> drawn, List<String> design) {}

  private Draw draw(Workshop workshop, Path results) throws InputException, IOException {
    CodingSample<Candidate> sample = new CodingSample<>(size, seed);
    new JudgedResults(workshop.sources(), workshop.problems()::add)
        .forEachResult(
            results.toString(),
            (promptId, verdicts) ->
                verdicts.forEach(
                    (item, judged) ->
                        sample.offer(
                            item.toString(),
                            judged.kind(),
                            judged.verdict(),
                            judged.look(),
                            new Candidate(item, judged))));
    List<CodingSample.Drawn<Candidate>> drawn = sample.draw();
    String name = name(results);
    List<CodingSheet.DesignLine> lines = new ArrayList<>();
    Map<Stratum, Integer> counts = new HashMap<>();
    drawn.forEach(one -> counts.merge(one.stratum(), 1, Integer::sum));
    for (CodingSample.Drawn<Candidate> one : drawn) {
      Codes.Item item = one.item().item();
      lines.add(
          new CodingSheet.DesignLine(
              name,
              item.responseId(),
              item.promptId(),
              item.part(),
              item.demand(),
              one.stratum(),
              sample.sizes().getOrDefault(one.stratum(), 0L),
              counts.getOrDefault(one.stratum(), 0),
              one.weight()));
    }
    return new Draw(name, drawn, CodingSheet.design(lines));
  }

  /** Returns a name that another sample of the same results does not have. */
  private String name(Path results) throws IOException {
    String basis =
        Checksum.sha256(results.toString()).orElse("")
            + " "
            + List.of(seed, size, coders)
            + " "
            + overlap;
    return Checksum.ofText(basis).substring(0, 12);
  }

  /**
   * Writes one sheet, and beside it what it was drawn from.
   *
   * @param out the sheet
   * @return how many demands are in it
   */
  public int write(
      Workshop workshop, Path results, Path out, Texts texts, Optional<PromptSet> prompts)
      throws InputException, IOException {
    Draw draw = draw(workshop, results);
    List<CodingSheet.Line> lines = lines(draw, texts, prompts);
    sheet(out, "", lines);
    OutputFile.write(designOf(out), String.join("", draw.design()));
    return lines.size();
  }

  /** Returns where what a sheet was drawn from is written. */
  public static Path designOf(Path sheet) {
    String name = String.valueOf(sheet.getFileName());
    int dot = name.lastIndexOf('.');
    return sheet.resolveSibling((dot > 0 ? name.substring(0, dot) : name) + ".design.csv");
  }

  /**
   * Refuses a folder of sheets that is there already, since people may have filled them in.
   *
   * @throws WrongCallException when it is
   */
  public static void refusePresent(Path folder) throws WrongCallException {
    if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
      throw new WrongCallException(Sayings.of("codingSampler.folderAlreadyMay", folder));
    }
  }

  /**
   * Writes a folder with a sheet for each coder, a codebook, and what was drawn.
   *
   * @param responses the responses, for their text
   * @param prompts the prompts, for their wording
   */
  public void writeAll(
      Workshop workshop, Path results, Path folder, String responses, String prompts)
      throws InputException, IOException {
    // Whatever is odd about rows and prompts was told of when they were judged.
    Texts texts = wanted -> texts(workshop, responses, wanted, problem -> {});
    Draw draw = draw(workshop, results);
    List<CodingSheet.Line> lines = lines(draw, texts, Optional.of(workshop.promptsAgain(prompts)));
    OutputFile.createFolder(folder);
    int shared = (int) Math.round(overlap * lines.size());
    for (int coder = 1; coder <= coders; coder++) {
      List<CodingSheet.Line> own = new ArrayList<>(lines.subList(0, shared));
      for (int at = shared; at < lines.size(); at++) {
        if ((at - shared) % coders == coder - 1) {
          own.add(lines.get(at));
        }
      }
      // Each coder meets the demands in another order, so that nobody tires on the same ones.
      Collections.shuffle(own, new Random(seed * 31 + coder));
      sheet(folder.resolve("coder-" + coder + ".xlsx"), "coder-" + coder, own);
    }
    OutputFile.write(folder.resolve("design.csv"), String.join("", draw.design()));
    OutputFile.write(folder.resolve("codebook.md"), Codebook.text());
    workshop.console().message(Sayings.of("codingSampler.demandsCodeGive", lines.size(), folder));
  }

  /** Returns the texts of some responses. */
  public static Map<String, String> texts(
      Workshop workshop, String responses, Set<String> wanted, Consumer<InputProblem> problems)
      throws InputException, IOException {
    Map<String, String> texts = new HashMap<>();
    if (wanted.isEmpty()) {
      return texts;
    }
    // Ids taken twice get the names that study gave them, which told of it.
    try (Arrivals rows =
        new UniqueIds(ResponseRows.open(workshop.sources(), responses), problem -> {})) {
      while (rows.hasNext()) {
        Arrival arrival = rows.next();
        if (arrival instanceof Response response && wanted.contains(response.id())) {
          texts.putIfAbsent(response.id(), response.text());
        } else if (arrival instanceof InputProblem problem) {
          problems.accept(problem);
        }
      }
    }
    return texts;
  }

  private static void sheet(Path out, String coder, List<CodingSheet.Line> lines)
      throws IOException {
    if (out.toString().toLowerCase(Locale.ROOT).endsWith(".xlsx")) {
      OutputFile.write(out, CodingSheet.workbook(lines, coder));
    } else {
      OutputFile.write(out, CodingSheet.csv(lines, coder));
    }
  }

  private List<CodingSheet.Line> lines(Draw draw, Texts texts, Optional<PromptSet> prompts)
      throws InputException, IOException {
    Set<String> wanted = new HashSet<>();
    draw.drawn().forEach(one -> wanted.add(one.item().item().responseId()));
    Map<String, String> found = texts.of(wanted);
    Map<String, Question> questions = questions(prompts);
    List<CodingSheet.Line> lines = new ArrayList<>();
    for (CodingSample.Drawn<Candidate> one : draw.drawn()) {
      Codes.Item item = one.item().item();
      Question question =
          questions.getOrDefault(item.promptId() + "\n" + item.part(), Question.UNKNOWN);
      lines.add(
          new CodingSheet.Line(
              item.responseId(),
              item.promptId(),
              item.part(),
              item.demand(),
              one.item().judged().kind(),
              question.asks(item.demand()),
              question.wording(),
              found.getOrDefault(item.responseId(), ""),
              "",
              draw.name()));
    }
    return lines;
  }

  /** Returns the lines of demands that coders differ on, for somebody to settle. */
  public static List<CodingSheet.Line> settling(
      List<CodedDemand> demands,
      Map<String, String> texts,
      Optional<PromptSet> prompts,
      String sample) {
    Map<String, Question> questions = questions(prompts);
    List<CodingSheet.Line> lines = new ArrayList<>();
    for (var demand : demands) {
      Question question =
          questions.getOrDefault(demand.promptId() + "\n" + demand.part(), Question.UNKNOWN);
      List<String> said = new ArrayList<>();
      demand.codes().forEach((coder, code) -> said.add(coder + " " + (code ? "1" : "0")));
      lines.add(
          new CodingSheet.Line(
              demand.responseId(),
              demand.promptId(),
              demand.part(),
              demand.demand(),
              demand.kind(),
              question.asks(demand.demand()),
              question.wording(),
              texts.getOrDefault(demand.responseId(), ""),
              String.join(", ", said),
              sample));
    }
    return lines;
  }

  /** What a part asks for, in its own words and demand by demand. */
  private record Question(String wording, List<String> demands) {
    static final Question UNKNOWN = new Question("", List.of());

    String asks(int demand) {
      return demand <= demands.size() ? demands.get(demand - 1) : "";
    }
  }

  private static Map<String, Question> questions(Optional<PromptSet> prompts) {
    Map<String, Question> questions = new HashMap<>();
    prompts.ifPresent(
        set -> {
          for (var prompt : set.all()) {
            for (Part part : prompt.parts()) {
              questions.put(
                  prompt.id() + "\n" + part.label(),
                  new Question(
                      part.text(), part.demands().stream().map(CodingSheet::asks).toList()));
            }
          }
        });
    return questions;
  }
}

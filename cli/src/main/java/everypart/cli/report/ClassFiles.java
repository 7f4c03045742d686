package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Corrections;
import everypart.cli.intake.InputProblem;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The files of a class set, with slips, in memory. */
public final class ClassFiles {
  private final ClassTables tables;
  private final ScreenHtml page;
  private final Slips slips = new Slips(EnumSet.of(Slips.Format.html, Slips.Format.docx));
  private final StringBuilder results = new StringBuilder();

  /** Makes them for responses to these prompts. */
  public ClassFiles(Collection<Prompt> prompts) {
    this.tables = new ClassTables(prompts, false);
    this.page = new ScreenHtml(prompts);
  }

  /** Adds a result of the program's, with what the teacher decided. */
  public void add(Coverage program, Corrections corrections, Map<String, String> groups) {
    Coverage coverage = corrections.apply(program);
    Corrections.Own own = corrections.of(program);
    results.append(ResultJson.line(coverage, program, Optional.empty(), groups)).append('\n');
    tables.add(coverage, groups, Optional.empty());
    page.add(coverage, program, Optional.empty(), groups, own);
    slips.add(coverage, own);
  }

  /** Returns the files by their names. */
  public Map<String, byte[]> files(List<InputProblem> problems) throws IOException {
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put("index.html", bytes(page.page(problems)));
    files.put("results.jsonl", bytes(results.toString()));
    files.put("matrix.csv", bytes(tables.matrix()));
    files.put("demands.csv", bytes(tables.demands()));
    files.putAll(slips.files());
    return files;
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}

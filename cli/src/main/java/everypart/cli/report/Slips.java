package everypart.cli.report;

import everypart.analyzer.coverage.Coverage;
import everypart.analyzer.coverage.Verdict;
import everypart.cli.intake.Corrections;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/**
 * Feedback slips: for each student which demands are covered, in the student's own words, and what
 * kind of sentence would close the open ones. A slip never says the answer, and shows no points
 * that the prompt's author listed.
 */
public final class Slips {
  /** What a slip is written as. */
  public enum Format {
    /** A page with all slips, for printing. */
    html,
    /** A text file for each student. */
    txt,
    /** A document with all slips, for printing and editing. */
    docx
  }

  private static final String FOLDER = "slips";
  private static final int QUOTE = 140;

  private final Set<Format> formats;
  private final List<Slip> slips = new ArrayList<>();
  private final Set<String> taken = new HashSet<>();

  /**
   * A slip.
   *
   * @param file its name as a file, unique and safe on every system
   */
  record Slip(
      String id, String file, String question, String summary, List<Line> lines, String comment) {
    boolean commented() {
      return !comment.isEmpty();
    }
  }

  /**
   * What is said of one demand.
   *
   * @param head the demand, as in "Part b, predict: what happens"
   * @param quote the student's own words; empty when there are none
   * @param next what would close it; empty when it is covered
   * @param comment what the teacher wrote on it; empty for nothing
   */
  record Line(
      String head,
      String word,
      String shape,
      String state,
      String quote,
      String next,
      String comment) {
    boolean commented() {
      return !comment.isEmpty();
    }

    boolean quoted() {
      return !quote.isEmpty();
    }

    boolean open() {
      return !next.isEmpty();
    }
  }

  /** The page of all slips. */
  record Page(String title, List<Slip> slips, String caution) {}

  /** Makes slips in these formats; with none, nothing is written. */
  public Slips(Set<Format> formats) {
    this.formats = Set.copyOf(formats);
  }

  /** Adds a slip. */
  public void add(Coverage coverage) {
    add(coverage, Corrections.Own.NOTHING);
  }

  /**
   * Adds a slip.
   *
   * @param own what the teacher wrote for its reader
   */
  public void add(Coverage coverage, Corrections.Own own) {
    if (formats.isEmpty()) {
      return;
    }
    ResponseView view = ResponseView.of(coverage, "s");
    List<Line> lines = new ArrayList<>();
    for (ResponseView.PartView part : view.parts()) {
      for (ResponseView.DemandView demand : part.demands()) {
        boolean said = lines.size() < own.comments().size();
        lines.add(line(part, demand, said ? own.comments().get(lines.size()) : ""));
      }
    }
    slips.add(
        new Slip(
            view.id(),
            file(view.id()),
            coverage.prompt().title().orElse(coverage.prompt().id()),
            summary(view, lines),
            List.copyOf(lines),
            own.comment()));
  }

  private static String summary(ResponseView view, List<Line> lines) {
    if (view.empty()) {
      return Wording.of("slip.empty");
    }
    long open =
        lines.stream()
            .filter(line -> line.open() && !line.word().equals(Verdict.UNCHECKED.word()))
            .count();
    return open == 0 ? Wording.of("slip.closed") : Wording.count("slip.open", open);
  }

  private static Line line(
      ResponseView.PartView part, ResponseView.DemandView demand, String comment) {
    String state =
        demand.verdict().word().equals(Verdict.UNCHECKED.word())
            ? Wording.of("slip.look")
            : demand.verdict().name();
    return new Line(
        Wording.of(
            "slip.head", "part", part.label(), "demand", Words.shortened(demand.words(), 100)),
        demand.verdict().word(),
        demand.verdict().shape(),
        demand.look() && demand.open() ? Wording.of("slip.unsure", "state", state) : state,
        demand.quotes().isEmpty() ? "" : Words.shortened(demand.quotes().get(0), QUOTE),
        demand.next(),
        comment);
  }

  private String file(String id) {
    String safe = FileName.of(id);
    String name = safe;
    for (int number = 2; !taken.add(name.toLowerCase(Locale.ROOT)); number++) {
      name = safe + "-" + number;
    }
    return name;
  }

  /** Returns the names of the files that are written, or of the folder while they are not known. */
  public List<String> names() {
    List<String> names = new ArrayList<>();
    if (formats.contains(Format.html)) {
      names.add("slips.html");
    }
    if (formats.contains(Format.docx)) {
      names.add("slips.docx");
    }
    if (formats.contains(Format.txt)) {
      if (slips.isEmpty()) {
        names.add(FOLDER);
      }
      slips.forEach(slip -> names.add(FOLDER + "/" + slip.file() + ".txt"));
    }
    return names;
  }

  /** Writes the slips: slips.html, slips.docx, and a folder slips with a text file for each. */
  public void write(Path folder) throws IOException {
    for (Map.Entry<String, byte[]> file : files().entrySet()) {
      Path target = folder.resolve(file.getKey());
      Path parent = target.getParent();
      if (parent != null) {
        OutputFile.createFolder(parent);
      }
      OutputFile.write(target, file.getValue());
    }
  }

  /** Returns the files, by their names with "/" between folder and file. */
  public Map<String, byte[]> files() throws IOException {
    Map<String, byte[]> files = new LinkedHashMap<>();
    Page page = new Page(Wording.of("slip.title"), List.copyOf(slips), Cautions.SLIP);
    if (formats.contains(Format.html)) {
      String html =
          Templates.page("slips.html", page.title(), List.of("style.css", "slips.css"), page);
      files.put("slips.html", html.getBytes(StandardCharsets.UTF_8));
    }
    if (formats.contains(Format.docx)) {
      files.put("slips.docx", document(page));
    }
    if (formats.contains(Format.txt)) {
      for (Slip slip : slips) {
        files.put(FOLDER + "/" + slip.file() + ".txt", text(slip).getBytes(StandardCharsets.UTF_8));
      }
    }
    return files;
  }

  private static String text(Slip slip) {
    StringWriter text = new StringWriter();
    PrintWriter out =
        new PrintWriter(text) {
          @Override
          public void println() {
            write('\n');
          }
        };
    out.println(slip.id() + "  " + slip.question());
    Lines.wrap(out, "", "", slip.summary());
    for (Line line : slip.lines()) {
      out.println();
      Lines.wrap(out, line.shape() + " ", "  ", line.head() + ": " + line.state());
      if (line.quoted()) {
        say(out, "slip.wrote", "\u201c" + line.quote() + "\u201d");
      }
      if (line.open()) {
        say(out, "slip.next", line.next() + ".");
      }
      if (line.commented()) {
        say(out, "slip.teacher", line.comment());
      }
    }
    if (slip.commented()) {
      out.println();
      Lines.wrap(out, Wording.of("slip.teacher") + "  ", "", slip.comment());
    }
    out.println();
    Lines.wrap(out, "", "", Cautions.SLIP);
    return text.toString();
  }

  private static void say(PrintWriter out, String key, String words) {
    String head = "  " + Wording.of(key) + "  ";
    Lines.wrap(out, head, " ".repeat(head.length()), words);
  }

  /** Returns the slips as a document (ECMA-376, WordprocessingML), in three parts. */
  private static byte[] document(Page page) throws IOException {
    Map<String, String> parts = new LinkedHashMap<>();
    parts.put("[Content_Types].xml", Templates.render("slips-types.xml", page));
    parts.put("_rels/.rels", Templates.render("slips-relations.xml", page));
    parts.put("word/document.xml", withoutControls(Templates.render("slips-document.xml", page)));
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipOutputStream zip = new ZipOutputStream(out)) {
      for (Map.Entry<String, String> part : parts.entrySet()) {
        ZipEntry entry = new ZipEntry(part.getKey());
        entry.setTime(0);
        zip.putNextEntry(entry);
        zip.write(part.getValue().getBytes(StandardCharsets.UTF_8));
      }
    }
    return out.toByteArray();
  }

  /** XML 1.0 holds no control characters but tab and line ends. */
  private static String withoutControls(String xml) {
    return xml.replaceAll("[\\p{Cntrl}&&[^\\t\\n\\r]]|[\\uFFFE\\uFFFF]", "");
  }
}

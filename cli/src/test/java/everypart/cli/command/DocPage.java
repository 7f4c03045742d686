package everypart.cli.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * A page for readers of the project, as far as it shows anything that may go stale.
 *
 * @param name its path from the root of the project
 * @param text all of it
 * @param shown what it sets as code, in order
 */
record DocPage(String name, String text, List<Shown> shown) {
  /** The root of the project. */
  static final Path ROOT = Path.of("..");

  private static final Pattern CODE =
      Pattern.compile(
          "(?m)^```\\w*\\n(?<fenced>(?s:.*?))^```$"
              + "|(?<=\\n\\n|^#{1,6} [^\\n]{0,99}\\n)(?<block>(?:^ {4}.*\\n|^\\n(?= {4}))+)"
              + "|`(?<inline>[^`\\n]+(?:\\n[^`\\n]+)?)`");

  private static final Pattern COMMAND =
      Pattern.compile("(?:java|mvn|python3|cli/bin/everypart|everypart|\\.ci/\\w+)(?: .*)?");

  DocPage {
    shown = List.copyOf(shown);
  }

  /**
   * Words that a page sets as code.
   *
   * @param page the page
   * @param inline whether they stand inside a sentence
   * @param lines a line, or those of a block
   */
  record Shown(String page, boolean inline, List<String> lines) {
    Shown {
      lines = List.copyOf(lines);
    }

    /** The first line, by which a list of exceptions knows it. */
    String first() {
      return lines.get(0).strip().replaceAll("\\s+", " ");
    }

    /** The lines as one text. */
    String block() {
      return String.join("\n", lines) + "\n";
    }

    /** The commands in it; none where it is something else. */
    List<Command> commands() {
      List<String> whole =
          Arrays.stream(String.join("\n", lines).replaceAll("\\\\\\n\\s*", " ").split("\n"))
              .flatMap(line -> Arrays.stream(line.strip().split(" && ")))
              .toList();
      boolean all = whole.stream().allMatch(line -> COMMAND.matcher(line).matches());
      return all ? whole.stream().map(line -> new Command(page, line)).toList() : List.of();
    }
  }

  /**
   * A command line.
   *
   * @param page the page that shows it
   * @param line all of it
   */
  record Command(String page, String line) {
    /** Its words, up to where the shell takes its output. */
    List<String> words() {
      return List.of(line.replaceFirst(" [>|].*", "").strip().split("\\s+"));
    }

    /** Whether the program itself is called. */
    boolean isOurs() {
      return words().get(0).endsWith("everypart");
    }

    /** What the program is given. */
    List<String> arguments() {
      return words().subList(1, words().size());
    }

    /** Whether a word stands for what the reader puts in its place: PROMPT, NAMES.csv, "...". */
    boolean isSketch() {
      return Pattern.compile("(?:^|[ =])(?:[A-Z]{1,}\\b|\\.\\.\\.)").matcher(line).find();
    }

    @Override
    public String toString() {
      return page + ": " + line;
    }
  }

  /** Reads all pages. */
  static List<DocPage> all() throws IOException {
    List<DocPage> pages = new ArrayList<>();
    for (String name : List.of("README.md", "DEVELOPERS.md", "demo-data/README.md")) {
      pages.add(of(name));
    }
    try (Stream<Path> docs = Files.list(ROOT.resolve("docs"))) {
      for (Path doc : docs.sorted().toList()) {
        if (doc.toString().endsWith(".md")) {
          pages.add(of("docs/" + doc.getFileName()));
        }
      }
    }
    return pages;
  }

  /** Reads a page. */
  static DocPage of(String name) throws IOException {
    String text = Files.readString(ROOT.resolve(name));
    List<Shown> shown = new ArrayList<>();
    Matcher code = CODE.matcher(text);
    while (code.find()) {
      String inline = code.group("inline");
      if (inline != null) {
        shown.add(new Shown(name, true, List.of(inline.replaceAll("\\s+", " "))));
        continue;
      }
      String block = code.group("fenced");
      shown.add(
          new Shown(
              name,
              false,
              block == null
                  ? code.group("block").lines().map(line -> line.replaceFirst("^ {4}", "")).toList()
                  : block.lines().toList()));
    }
    return new DocPage(name, text, shown);
  }
}

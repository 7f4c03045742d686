package everypart.cli.intake;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.prompt.PromptYaml;
import everypart.analyzer.prompt.Remark;
import everypart.cli.intake.document.Document;
import everypart.cli.intake.document.DocumentException;
import everypart.cli.intake.document.Documents;
import everypart.cli.intake.document.Limit;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;

/**
 * Reads prompts from a file or from a folder of such files: .txt, .md, .yaml, .yml, and the
 * documents that responses come in (.docx, .odt, .rtf, .pdf, .html). Of a document, headings and
 * bold words keep their Markdown signs, and list numbers are written out, so that they serve as
 * hints and labels.
 */
public final class PromptFiles {
  private static final List<String> TEXTS = List.of(".txt", ".md", ".yaml", ".yml");

  private static final int LONGEST_QUOTE = 160;

  private final Sources sources;
  private final PromptReader reader;
  private final Consumer<InputProblem> problems;
  private final Documents documents;

  /**
   * Makes a reader.
   *
   * @param problems is told of each prompt that cannot be read
   */
  public PromptFiles(Sources sources, PromptReader reader, Consumer<InputProblem> problems) {
    this.sources = sources;
    this.documents = Documents.withMarkdown(sources.limits());
    this.reader = reader;
    this.problems = problems;
  }

  /**
   * Reads all prompts of a file or folder, in the order of the files' names.
   *
   * @throws InputException when not one prompt could be read
   */
  public PromptSet read(String name) throws InputException {
    Map<String, Prompt> prompts = new LinkedHashMap<>();
    Map<String, String> from = new LinkedHashMap<>();
    for (String file : files(name)) {
      try {
        Prompt prompt = one(file);
        if (from.containsKey(prompt.id())) {
          problems.accept(
              InputProblem.fault(
                  Sources.place(file),
                  Sayings.of("promptFiles.idAlready", prompt.id(), from.get(prompt.id())),
                  Sayings.of("promptFiles.giveOneTwo")));
        } else {
          from.put(prompt.id(), file);
          prompts.put(prompt.id(), prompt);
        }
      } catch (InputException e) {
        problems.accept(e.problem());
      }
    }
    if (prompts.isEmpty()) {
      throw new InputException(
          InputProblem.fault(
              Sources.place(name),
              Sayings.of("promptFiles.noPromptCould"),
              Sayings.of("promptFiles.givePromptTxt")));
    }
    return new PromptSet(prompts, from);
  }

  private List<String> files(String name) throws InputException {
    if (name.equals(Sources.STANDARD_INPUT) || !Files.isDirectory(Path.of(name))) {
      return List.of(name);
    }
    try (Stream<Path> inside = Files.list(Path.of(name))) {
      List<String> found = new ArrayList<>();
      inside
          .filter(path -> isText(path.toString()) || Documents.reads(path.toString()))
          .filter(path -> !path.getFileName().toString().startsWith("."))
          .sorted()
          .forEach(path -> found.add(path.toString()));
      return found;
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(name, e));
    }
  }

  private Prompt one(String file) throws InputException {
    try {
      return prompt(file);
    } catch (OutOfMemoryError e) {
      throw new InputException(Sources.withoutMemory(file));
    }
  }

  private Prompt prompt(String file) throws InputException {
    Place place = Sources.place(file);
    String text = text(file);
    if (text.length() > sources.limits().of(Limit.PROMPT)) {
      throw new InputException(Sources.over(place, sources.limits(), Limit.PROMPT));
    }
    if (text.isBlank()) {
      throw new InputException(
          InputProblem.fault(
              place,
              Sayings.of("promptFiles.promptEmpty"),
              Sayings.of("promptFiles.writeQuestionInto")));
    }
    String id = file.equals(Sources.STANDARD_INPUT) ? "prompt" : stem(file);
    boolean yaml = List.of(".yaml", ".yml").contains(ending(file));
    Prompt prompt;
    try {
      prompt = yaml ? new PromptYaml(reader).read(id, text) : reader.read(id, text);
    } catch (StackOverflowError e) {
      throw new InputException(
          InputProblem.fault(
              place,
              Sayings.of("promptFiles.promptNestedToo"),
              Sayings.of("promptFiles.writeAnewPlain")));
    } catch (IllegalArgumentException e) {
      throw new InputException(
          InputProblem.fault(
              place,
              Sayings.of("promptFiles.promptCannotRead", String.valueOf(e.getMessage())),
              Sayings.of("promptFiles.mendLineSee")));
    }
    boolean counted = isText(file) && !yaml;
    for (Remark remark : prompt.remarks()) {
      if (remark.kind() == Remark.Kind.LOOK) {
        problems.accept(
            doubt(counted ? place.atLine(line(prompt, remark)) : place, prompt, remark));
      }
    }
    return prompt;
  }

  /**
   * Reads a text as it stands, or the text of a document.
   *
   * @throws InputException when it cannot be read
   */
  public String text(String file) throws InputException {
    Place place = Sources.place(file);
    if (file.equals(Sources.STANDARD_INPUT) || isText(file) || !Documents.reads(file)) {
      return sources.text(file);
    }
    try {
      Document document = documents.read(Path.of(file));
      document
          .remarks()
          .forEach(
              remark -> problems.accept(InputProblem.note(place, remark.what(), remark.mend())));
      return document.text();
    } catch (DocumentException e) {
      throw new InputException(InputProblem.fault(place, e.remark().what(), e.remark().mend()));
    }
  }

  private static InputProblem doubt(Place place, Prompt prompt, Remark remark) {
    String words = remark.span().of(prompt.text()).strip().replaceAll("\\s+", " ");
    if (words.length() > LONGEST_QUOTE) {
      words = words.substring(0, LONGEST_QUOTE).strip() + " ...";
    }
    return InputProblem.note(
        place,
        remark.message() + " (look at \"" + words + "\")",
        Sayings.of("promptFiles.sayWhatDone"));
  }

  /** Returns the line, from 1, on which the words of a remark begin. */
  private static long line(Prompt prompt, Remark remark) {
    return 1
        + prompt.text().substring(0, remark.span().start()).chars().filter(c -> c == '\n').count();
  }

  private static boolean isText(String name) {
    return TEXTS.contains(ending(name));
  }

  private static String ending(String name) {
    int dot = name.lastIndexOf('.');
    return dot < 0 ? "" : name.substring(dot).toLowerCase(Locale.ROOT);
  }

  private static String stem(String file) {
    Path last = Path.of(file).getFileName();
    String name = last == null ? file : last.toString();
    int dot = name.lastIndexOf('.');
    return dot <= 0 ? name : name.substring(0, dot);
  }
}

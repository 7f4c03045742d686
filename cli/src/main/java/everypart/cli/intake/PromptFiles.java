package everypart.cli.intake;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.prompt.PromptYaml;
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

/** Reads prompts from a file (.txt, .md, .yaml, .yml) or from a folder of such files. */
public final class PromptFiles {
  private static final List<String> ENDINGS = List.of(".txt", ".md", ".yaml", ".yml");

  private final Sources sources;
  private final PromptReader reader;
  private final Consumer<InputProblem> problems;

  /**
   * Makes a reader.
   *
   * @param problems is told of each prompt that cannot be read
   */
  public PromptFiles(Sources sources, PromptReader reader, Consumer<InputProblem> problems) {
    this.sources = sources;
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
                  "its id \"" + prompt.id() + "\" is already that of " + from.get(prompt.id()),
                  "give one of the two another name or id"));
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
              "no prompt could be read",
              "give a prompt as .txt, .md or .yaml, or a folder of such files"));
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
          .filter(path -> ENDINGS.contains(ending(path.toString())))
          .filter(path -> !path.getFileName().toString().startsWith("."))
          .sorted()
          .forEach(path -> found.add(path.toString()));
      return found;
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(name, e));
    }
  }

  private Prompt one(String file) throws InputException {
    String text = sources.text(file);
    Place place = Sources.place(file);
    if (text.isBlank()) {
      throw new InputException(
          InputProblem.fault(place, "the prompt is empty", "write the question into the file"));
    }
    String id = file.equals(Sources.STANDARD_INPUT) ? "prompt" : stem(file);
    boolean yaml = List.of(".yaml", ".yml").contains(ending(file));
    Prompt prompt;
    try {
      prompt = yaml ? new PromptYaml(reader).read(id, text) : reader.read(id, text);
    } catch (IllegalArgumentException e) {
      throw new InputException(
          InputProblem.fault(
              place,
              "the prompt cannot be read: " + e.getMessage(),
              "mend the line, or see docs/formats.md for what a prompt may hold"));
    }
    if (prompt.parts().stream().allMatch(part -> part.demands().isEmpty())) {
      problems.accept(
          InputProblem.note(
              place,
              "no demand was found in this prompt",
              "say what is to be done (describe, explain, predict ...), or list the demands in a"
                  + " .yaml prompt"));
    }
    return prompt;
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

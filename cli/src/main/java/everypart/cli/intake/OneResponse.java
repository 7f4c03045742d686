package everypart.cli.intake;

import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.document.Documents;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/** Reads the one response that a writer checks. */
public final class OneResponse {
  private OneResponse() {}

  /**
   * Reads it: a document, a sheet or a zip file that holds one response, or plain text under any
   * other name and on standard input.
   *
   * @param notes is told of each choice a person should know of
   * @throws InputException when it cannot be read, or there are several
   */
  public static Response read(
      Sources sources, Prompt prompt, String name, Consumer<InputProblem> notes)
      throws InputException {
    Place place = Sources.place(name);
    if (name.equals(Sources.STANDARD_INPUT) || isPlain(name)) {
      return named(place, sources.text(name));
    }
    try (ResponseFiles files =
        new ResponseFiles(sources, List.of(prompt), Choices.NONE, List.of(name), notes)) {
      Arrival first = files.next();
      if (first instanceof InputProblem problem) {
        throw new InputException(problem);
      }
      if (files.hasNext()) {
        throw new InputException(
            InputProblem.fault(
                place,
                Sayings.of("oneResponse.moreThanOne"),
                Sayings.of("oneResponse.useScreenClass")));
      }
      return Files.isDirectory(Path.of(name)) || Documents.isSheet(name) || Documents.isZip(name)
          ? (Response) first
          : named(place, ((Response) first).text());
    }
  }

  private static Response named(Place place, String text) {
    return new Response(place.source(), Optional.empty(), text, Map.of(), place);
  }

  /** Tells whether a file is plain text, by its name, or where that says nothing by its bytes. */
  private static boolean isPlain(String name) {
    Path file = Path.of(name);
    String last = String.valueOf(file.getFileName());
    if (Files.isDirectory(file) || Documents.isSheet(last) || Documents.isZip(last)) {
      return false;
    }
    if (Documents.reads(last)) {
      return Documents.isPlainText(last) && isBlank(file);
    }
    return !last.contains(".") || !Files.isRegularFile(file);
  }

  /** An empty response is one, for its writer. */
  private static boolean isBlank(Path file) {
    try {
      return Files.isRegularFile(file)
          && Files.size(file) < 1024
          && Files.readString(file).isBlank();
    } catch (IOException e) {
      return false;
    }
  }
}

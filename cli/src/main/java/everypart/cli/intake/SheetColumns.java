package everypart.cli.intake;

import everypart.analyzer.prompt.Prompt;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * What the columns of a class sheet hold: the student's id, the prompt's id, and the answers, which
 * stand in one column, in one for each part, or in one for each prompt.
 *
 * @param id the column of the id; empty when no column is one
 * @param prompt the column of the prompt's id
 * @param answers the responses of a row
 * @param header the names of all columns
 */
record SheetColumns(OptionalInt id, OptionalInt prompt, List<Answer> answers, List<String> header) {
  /**
   * A response in a row.
   *
   * @param prompt the prompt it answers; empty where the columns do not tell
   * @param cells its columns, by the label of the part; the empty label is the whole response
   */
  record Answer(Optional<String> prompt, Map<String, Integer> cells) {}

  /** The label of a whole response. */
  static final String WHOLE = "";

  SheetColumns {
    answers = List.copyOf(answers);
    header = List.copyOf(header);
  }

  /** Tells whether these are the columns of the public format, with nothing guessed. */
  boolean arePublic() {
    return id.isPresent()
        && header.get(id.getAsInt()).equals("response_id")
        && answers.size() == 1
        && IntStream.range(0, header.size())
            .filter(i -> header.get(i).equals("text"))
            .anyMatch(i -> answers.get(0).cells().equals(Map.of(WHOLE, i)));
  }

  /** Returns the columns that hold something else. */
  List<Integer> groups() {
    Set<Integer> taken = new HashSet<>();
    id.ifPresent(taken::add);
    prompt.ifPresent(taken::add);
    answers.forEach(answer -> taken.addAll(answer.cells().values()));
    return IntStream.range(0, header.size())
        .filter(i -> !taken.contains(i) && !header.get(i).isEmpty())
        .boxed()
        .toList();
  }

  /** Returns the columns in the form that {@code --columns} takes. */
  String inWords() {
    List<String> words = new ArrayList<>();
    words.add(
        id.isPresent() ? "id=" + quoted(id.getAsInt()) : Sayings.of("sheetColumns.idRowsNumber"));
    prompt.ifPresent(column -> words.add("prompt=" + quoted(column)));
    for (Answer answer : answers) {
      answer
          .cells()
          .forEach(
              (part, column) ->
                  words.add(
                      answer
                              .prompt()
                              .map(name -> part.isEmpty() ? name : name + ":" + part)
                              .orElse(part.isEmpty() ? "text" : part)
                          + "="
                          + quoted(column)));
    }
    return String.join(", ", words);
  }

  private String quoted(int column) {
    String name = header.get(column);
    return "\"" + (name.length() > 40 ? name.substring(0, 39).strip() + "\u2026" : name) + "\"";
  }

  /**
   * Settles the columns: as the caller says, the rest by their names and what they hold.
   *
   * @param asked what the caller says; see {@link Choices#columns()}
   * @param sample the first rows
   * @throws InputException when a column that was named is not there, or none holds answers
   */
  static SheetColumns of(
      Place file,
      List<String> header,
      List<List<String>> sample,
      Map<String, String> asked,
      Collection<Prompt> prompts)
      throws InputException {
    return new ColumnSettling(file, header, sample, prompts).settle(asked);
  }

  /** Returns a name without case, signs and repeated spaces. */
  static String plain(String name) {
    return name.toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", " ").strip();
  }

  /** Returns a cell without the white space round it; empty where the row is short. */
  static String cell(List<String> row, int column) {
    return column < row.size() ? row.get(column).strip() : "";
  }
}

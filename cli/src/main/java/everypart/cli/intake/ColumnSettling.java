package everypart.cli.intake;

import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Prompt;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/** Settles the columns of one sheet: as the caller says, the rest by names and what they hold. */
final class ColumnSettling {
  /** Names under which exports keep who wrote a response; the first that is there is taken. */
  private static final List<String> ID =
      List.of(
          "response id",
          "student id",
          "student number",
          "candidate number",
          "id",
          "student",
          "candidate",
          "pupil",
          "username",
          "user name",
          "user",
          "full name",
          "name",
          "email address",
          "email",
          "e mail");

  private static final List<String> TEXT =
      List.of(
          "text",
          "response",
          "answer",
          "answers",
          "response text",
          "answer text",
          "your answer",
          "your response",
          "submission",
          "essay");

  private static final List<String> PROMPT =
      List.of("prompt id", "prompt", "question id", "question");

  /** Characters a cell holds on average where a column is taken for answers by its length alone. */
  private static final int LONG = 40;

  /** Letters of a question's wording that a header must repeat to be taken for its part. */
  private static final int ECHO = 15;

  private final Place file;
  private final List<String> header;
  private final List<String> plain;
  private final List<List<String>> sample;
  private final Collection<Prompt> prompts;

  ColumnSettling(
      Place file, List<String> header, List<List<String>> sample, Collection<Prompt> prompts) {
    this.file = file.atLine(1);
    this.header = header;
    this.plain = header.stream().map(SheetColumns::plain).toList();
    this.sample = sample;
    this.prompts = prompts;
  }

  SheetColumns settle(Map<String, String> asked) throws InputException {
    OptionalInt id = OptionalInt.empty();
    OptionalInt prompt = OptionalInt.empty();
    Map<Optional<String>, Map<String, Integer>> answers = new LinkedHashMap<>();
    for (Map.Entry<String, String> one : asked.entrySet()) {
      int column = column(one.getValue());
      switch (one.getKey()) {
        case "id" -> id = OptionalInt.of(column);
        case "prompt" -> prompt = OptionalInt.of(column);
        default -> answer(one.getKey(), column, answers);
      }
    }
    if (id.isEmpty()) {
      id = named(ID);
    }
    if (prompt.isEmpty()) {
      prompt = prompt();
    }
    List<SheetColumns.Answer> found = new ArrayList<>();
    answers.forEach((name, cells) -> found.add(new SheetColumns.Answer(name, cells)));
    if (found.isEmpty()) {
      found.addAll(guess(id, prompt));
    }
    return new SheetColumns(id, prompt, found, header);
  }

  private int column(String name) throws InputException {
    int exact = header.indexOf(name);
    if (exact >= 0) {
      return exact;
    }
    String wanted = SheetColumns.plain(name);
    List<Integer> begin =
        IntStream.range(0, plain.size())
            .filter(i -> !wanted.isEmpty() && plain.get(i).startsWith(wanted))
            .boxed()
            .toList();
    if (plain.indexOf(wanted) >= 0) {
      return plain.indexOf(wanted);
    }
    if (begin.size() == 1) {
      return begin.get(0);
    }
    if (name.strip().matches("[1-9]\\d{0,4}") && Integer.parseInt(name.strip()) <= header.size()) {
      return Integer.parseInt(name.strip()) - 1;
    }
    throw new InputException(
        InputProblem.fault(
            file,
            Sayings.of(
                begin.isEmpty() ? "csvRows.headerNoColumn" : "sheetColumns.severalColumnsBegin",
                name,
                String.join(", ", header)),
            Sayings.of("sheetColumns.correctColumnsColumns")));
  }

  private void answer(String role, int column, Map<Optional<String>, Map<String, Integer>> answers)
      throws InputException {
    int colon = role.indexOf(':');
    String name = colon < 0 ? "" : role.substring(0, colon);
    String part = colon < 0 ? role : role.substring(colon + 1);
    if (role.equals("text")) {
      part = SheetColumns.WHOLE;
    } else if (colon < 0 && prompts.stream().anyMatch(prompt -> prompt.id().equals(role))) {
      name = role;
      part = SheetColumns.WHOLE;
    }
    String label = part.toLowerCase(Locale.ROOT);
    String id = name;
    boolean unasked = prompts.isEmpty() && role.equals("text");
    boolean known =
        unasked
            || prompts.stream()
                .filter(prompt -> id.isEmpty() || prompt.id().equals(id))
                .anyMatch(
                    prompt ->
                        label.isEmpty()
                            || prompt.parts().stream().anyMatch(one -> one.label().equals(label)));
    if (!known) {
      throw new InputException(
          InputProblem.fault(
              file,
              Sayings.of("sheetColumns.columnsNamesWhich", role),
              Sayings.of("sheetColumns.useIdText")));
    }
    answers
        .computeIfAbsent(
            id.isEmpty() ? Optional.empty() : Optional.of(id), key -> new LinkedHashMap<>())
        .put(label, column);
  }

  private OptionalInt named(List<String> names) {
    return names.stream().mapToInt(plain::indexOf).filter(i -> i >= 0).findFirst();
  }

  /** A column of prompts is one that is called so and holds ids of prompts, or the public one. */
  private OptionalInt prompt() {
    if (header.contains("prompt_id")) {
      return OptionalInt.of(header.indexOf("prompt_id"));
    }
    Set<String> ids = new HashSet<>();
    prompts.forEach(prompt -> ids.add(prompt.id()));
    return named(PROMPT).stream()
        .filter(
            i ->
                !sample.isEmpty()
                    && sample.stream()
                        .map(row -> SheetColumns.cell(row, i))
                        .allMatch(cell -> cell.isEmpty() || ids.contains(cell)))
        .findFirst();
  }

  private List<SheetColumns.Answer> guess(OptionalInt id, OptionalInt prompt)
      throws InputException {
    if (prompts.size() > 1 && prompt.isEmpty()) {
      List<SheetColumns.Answer> each = byPrompt();
      if (!each.isEmpty()) {
        return each;
      }
    }
    if (prompts.size() == 1 && !header.contains("text")) {
      Map<String, Integer> cells = byPart(prompts.iterator().next());
      if (!cells.isEmpty()) {
        return List.of(new SheetColumns.Answer(Optional.empty(), cells));
      }
    }
    OptionalInt text = named(TEXT);
    if (text.isEmpty()) {
      text = longest(id, prompt);
    }
    if (text.isEmpty()) {
      throw new InputException(
          InputProblem.fault(
              file,
              Sayings.of("sheetColumns.headerNoAnswers", String.join(", ", header)),
              Sayings.of("sheetColumns.nameTextSay")));
    }
    return List.of(
        new SheetColumns.Answer(Optional.empty(), Map.of(SheetColumns.WHOLE, text.getAsInt())));
  }

  private List<SheetColumns.Answer> byPrompt() {
    List<SheetColumns.Answer> found = new ArrayList<>();
    for (Prompt prompt : prompts) {
      int at = plain.indexOf(SheetColumns.plain(prompt.id()));
      if (at < 0 && prompt.title().isPresent()) {
        at = plain.indexOf(SheetColumns.plain(prompt.title().get()));
      }
      if (at >= 0) {
        found.add(
            new SheetColumns.Answer(Optional.of(prompt.id()), Map.of(SheetColumns.WHOLE, at)));
      }
    }
    return found;
  }

  /** Returns a column for each part; none when fewer than two parts have one. */
  private Map<String, Integer> byPart(Prompt prompt) {
    Map<String, Integer> cells = new LinkedHashMap<>();
    for (Part part : prompt.parts()) {
      String label = Pattern.quote(SheetColumns.plain(part.label()));
      Pattern called =
          Pattern.compile(
              "(?:(?:part|question|q|answer|response|item|text)(?: to)? ?)?(?:part )?(?:\\d{1,2}"
                  + " ?)?"
                  + label
                  + "(?: (?:answer|response|text))?");
      String wording = SheetColumns.plain(part.text());
      for (int i = 0; i < plain.size(); i++) {
        String name = plain.get(i);
        String bare =
            name.replaceFirst("^(?:part |question |q ?)?(?:\\d{1,2} ?)?" + label + " ", "");
        if (called.matcher(name).matches()
            || (bare.length() >= ECHO && wording.startsWith(bare))
            || (wording.length() >= ECHO && bare.contains(wording))) {
          cells.putIfAbsent(part.label(), i);
        }
      }
    }
    return cells.size() < 2 || new HashSet<>(cells.values()).size() < cells.size()
        ? Map.of()
        : cells;
  }

  /** Returns the column with the longest cells, when they are longer than a name or a mark. */
  private OptionalInt longest(OptionalInt id, OptionalInt prompt) {
    OptionalInt best = OptionalInt.empty();
    double most = LONG;
    for (int i = 0; i < header.size(); i++) {
      int column = i;
      double mean =
          sample.stream()
              .map(row -> SheetColumns.cell(row, column))
              .filter(cell -> !cell.isEmpty())
              .mapToInt(String::length)
              .average()
              .orElse(0);
      if (mean >= most && !id.equals(OptionalInt.of(i)) && !prompt.equals(OptionalInt.of(i))) {
        most = mean;
        best = OptionalInt.of(i);
      }
    }
    return best;
  }
}

package everypart.cli.intake;

import everypart.analyzer.coverage.Verdict;
import everypart.analyzer.study.agreement.Stratum;
import everypart.lexicon.DemandKind;
import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.regex.Pattern;

/** Reads people's codes, and what a sample of demands to code was drawn from. */
public final class Codes {
  private static final Pattern SECOND = Pattern.compile("#[0-9]+$");
  private static final Pattern GUARDED = Pattern.compile("'[=+@\uff1d\uff0b\uff0d\uff20-]");

  private final Sources sources;
  private final Consumer<InputProblem> problems;

  /**
   * A demand of a response.
   *
   * @param promptId names the prompt; empty where codes do not say
   * @param responseId names the response
   * @param part the part's label
   * @param demand the demand's running number in its part, from 1
   */
  public record Item(String promptId, String responseId, String part, int demand) {
    private Item as(String prompt, String response) {
      return new Item(prompt, response, part, demand);
    }
  }

  /**
   * A verdict of the program.
   *
   * @param item the demand, as the results name it
   * @param kind the kind of demand
   * @param verdict the verdict
   * @param confidence the program's confidence in it
   * @param look whether it asks for a person's eye
   * @param quotes the words it relies on
   * @param why the reasons in plain words
   * @param groups what the further columns of the response say
   */
  public record Judged(
      Item item,
      DemandKind kind,
      Verdict verdict,
      double confidence,
      boolean look,
      List<String> quotes,
      List<String> why,
      Map<String, String> groups) {
    /** Copies the lists. */
    public Judged {
      quotes = List.copyOf(quotes);
      why = List.copyOf(why);
    }
  }

  /**
   * What people coded.
   *
   * @param coders for each coder the items coded, true where the demand is addressed; an empty code
   *     says that the coder left the item open, and is not in it
   * @param weights how many demands of the whole set an item stands for, where a column weight says
   *     so
   * @param samples the names of the samples that the rows were drawn in, where a column sample says
   *     so
   */
  public record Coded(
      Map<String, Map<Item, Boolean>> coders, Map<Item, Double> weights, Set<String> samples) {
    /** Returns whether anyone coded an item, named just so. */
    private boolean has(Item item) {
      return coders.values().stream().anyMatch(items -> items.containsKey(item));
    }

    /**
     * Returns the name under which a demand of the results was coded: by response and prompt; where
     * codes do not say the prompt, by response alone; and where an id was taken twice and the
     * results call the second {@code id#2}, by its own id and prompt.
     */
    Optional<Item> name(Item result) {
      if (has(result)) {
        return Optional.of(result);
      }
      Item alone = result.as("", result.responseId());
      if (has(alone)) {
        return Optional.of(alone);
      }
      Item own = result.as(result.promptId(), SECOND.matcher(result.responseId()).replaceFirst(""));
      return has(own) ? Optional.of(own) : Optional.empty();
    }

    /** Returns an item's codes. */
    public Map<String, Boolean> codes(Item item) {
      Map<String, Boolean> codes = new LinkedHashMap<>();
      coders.forEach(
          (coder, items) -> {
            Boolean code = items.get(item);
            if (code != null) {
              codes.put(coder, code);
            }
          });
      return codes;
    }
  }

  /**
   * What a sample was drawn from.
   *
   * @param name the sample's name
   * @param sizes how many demands were in each stratum
   * @param drawn the demands drawn, as the results name them
   */
  public record Design(String name, Map<Stratum, Long> sizes, Set<Item> drawn) {}

  /**
   * Makes a reader.
   *
   * @param problems is told of each row that cannot be used
   */
  public Codes(Sources sources, Consumer<InputProblem> problems) {
    this.sources = sources;
    this.problems = problems;
  }

  /**
   * Reads codes.
   *
   * @param name corrections saved from the report of screen (.json), of which the responses that
   *     were read whole count, or a table (.csv, .tsv, .xlsx; the first sheet of a workbook) with
   *     the columns response_id, part, demand and code; a column prompt_id may say which prompt was
   *     answered, a column coder may tell several coders apart, a column sample may name the sample
   *     that a row was drawn in, and a column weight may say how many demands a row stands for.
   *     Several files have commas between
   * @throws InputException when a file cannot be read or lacks a column
   */
  public Coded codes(String name) throws InputException {
    List<String> files = List.of(name.split(","));
    if (files.size() == 1) {
      return codes(name, "coder");
    }
    Map<String, Map<Item, Boolean>> coders = new LinkedHashMap<>();
    Map<Item, Double> weights = new HashMap<>();
    Set<String> samples = new TreeSet<>();
    for (String file : files) {
      Coded coded = codes(file, stem(file));
      coded
          .coders()
          .forEach(
              (coder, items) -> {
                Map<Item, Boolean> all =
                    coders.computeIfAbsent(coder, key -> new LinkedHashMap<>());
                items.forEach(
                    (item, code) -> {
                      if (all.put(item, code) != null) {
                        problems.accept(
                            InputProblem.fault(
                                Sources.place(file),
                                Sayings.of("codes.demandResponseCoded", item.responseId(), coder),
                                Sayings.of("codes.leaveOneRow")));
                      }
                    });
              });
      weights.putAll(coded.weights());
      samples.addAll(coded.samples());
    }
    return new Coded(coders, weights, samples);
  }

  private static String stem(String file) {
    String name = String.valueOf(Path.of(file).getFileName());
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }

  /**
   * Reads what a sample was drawn from.
   *
   * @param name the file that was written beside the sheet
   * @throws InputException when it cannot be read or lacks a column
   */
  public Design design(String name) throws InputException {
    Map<Stratum, Long> sizes = new TreeMap<>();
    Set<Item> drawn = new HashSet<>();
    Set<String> samples = new TreeSet<>();
    try (CodeRows rows = CodeRows.open(sources, name, problems)) {
      int sample = rows.column("sample");
      int id = rows.column("response_id");
      int prompt = rows.column("prompt_id");
      int part = rows.column("part");
      int demand = rows.column("demand");
      int kind = rows.column("kind");
      int missing = rows.column("missing");
      int unsure = rows.column("unsure");
      int size = rows.column("stratum_size");
      for (CsvRows.Row row = rows.next(); row != null; row = rows.next()) {
        try {
          List<String> cells = row.cells();
          samples.add(cells.get(sample));
          drawn.add(
              new Item(
                  plain(cells.get(prompt)),
                  plain(cells.get(id)),
                  plain(cells.get(part)),
                  Integer.parseInt(cells.get(demand))));
          sizes.put(
              new Stratum(
                  DemandKind.of(cells.get(kind)),
                  cells.get(missing).equals("1"),
                  cells.get(unsure).equals("1")),
              Long.parseLong(cells.get(size)));
        } catch (IllegalArgumentException | IndexOutOfBoundsException e) {
          throw new InputException(
              InputProblem.fault(
                  row.place(),
                  Sayings.of("codes.rowProgramWrote"),
                  Sayings.of("codes.giveDesignFile")));
        }
      }
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(name, e));
    }
    return new Design(String.join(" and ", samples), sizes, drawn);
  }

  private Coded codes(String name, String nameless) throws InputException {
    if (name.toLowerCase(Locale.ROOT).endsWith(".json")) {
      Map<Item, Boolean> own = Corrections.read(sources, name).codes();
      if (own.isEmpty()) {
        throw new InputException(
            InputProblem.fault(
                Sources.place(name),
                Sayings.of("codes.noResponseMarked"),
                Sayings.of("codes.markResponsesYou")));
      }
      return new Coded(Map.of("teacher", own), Map.of(), Set.of());
    }
    Map<String, Map<Item, Boolean>> codes = new LinkedHashMap<>();
    Map<Item, Double> weights = new HashMap<>();
    Set<String> samples = new TreeSet<>();
    try (CodeRows rows = CodeRows.open(sources, name, problems)) {
      int id = rows.column("response_id");
      Optional<Integer> prompt = rows.optionalColumn("prompt_id");
      Optional<Integer> sample = rows.optionalColumn("sample");
      int part = rows.column("part");
      int demand = rows.column("demand");
      int code = rows.column("code");
      Optional<Integer> coder = rows.optionalColumn("coder");
      Optional<Integer> weight = rows.optionalColumn("weight");
      for (CsvRows.Row row = rows.next(); row != null; row = rows.next()) {
        if (row.problem().isPresent()) {
          problems.accept(row.problem().get());
          continue;
        }
        List<String> cells = row.cells();
        String value = cells.get(code).strip();
        String number = cells.get(demand).strip();
        if (!number.matches("[1-9][0-9]{0,5}")) {
          problems.accept(
              InputProblem.fault(
                  row.place(),
                  "demand is \"" + number + "\"",
                  Sayings.of("codes.giveRunningNumber")));
          continue;
        }
        if (!value.matches("[01]?")) {
          problems.accept(
              InputProblem.fault(
                  row.place(),
                  "code is \"" + value + "\"",
                  Sayings.of("codes.giveAddressedLeave")));
          continue;
        }
        if (value.isEmpty()) {
          continue;
        }
        String person =
            coder
                .map(cells::get)
                .map(String::strip)
                .filter(named -> !named.isEmpty())
                .orElse(nameless);
        Item item =
            new Item(
                prompt.map(cells::get).map(Codes::plain).orElse(""),
                plain(cells.get(id)),
                plain(cells.get(part)),
                Integer.parseInt(number));
        sample
            .map(cells::get)
            .map(String::strip)
            .filter(named -> !named.isEmpty())
            .ifPresent(samples::add);
        // A spreadsheet may save the weight with a decimal comma.
        String share = weight.map(cells::get).orElse("1").strip().replace(',', '.');
        if (!share.matches("[0-9]{1,12}([.][0-9]{1,12})?") || Double.parseDouble(share) == 0) {
          problems.accept(
              InputProblem.fault(
                  row.place(), "weight is \"" + share + "\"", Sayings.of("codes.giveNumberAbove")));
          continue;
        }
        if (weight.isPresent()) {
          weights.put(item, Double.parseDouble(share));
        }
        if (codes.computeIfAbsent(person, key -> new LinkedHashMap<>()).put(item, value.equals("1"))
            != null) {
          problems.accept(
              InputProblem.fault(
                  row.place(),
                  Sayings.of("codes.demandCodedBefore", person),
                  Sayings.of("codes.leaveOneRow")));
        }
      }
    } catch (IOException e) {
      throw new InputException(Sources.unreadable(name, e));
    }
    return new Coded(codes, weights, samples);
  }

  /** Takes away the apostrophe that a sheet has before what a spreadsheet would calculate. */
  private static String plain(String cell) {
    String stripped = cell.strip();
    return GUARDED.matcher(stripped).lookingAt() ? stripped.substring(1) : stripped;
  }
}

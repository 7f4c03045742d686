package everypart.cli.report;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonProcessingException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * All that a study's outputs depend on, and what came of it: {@code study.log.json}. It holds no
 * time and no name of a machine, so the same input gives the same log.
 *
 * @param program name and version
 * @param settings what was asked for
 * @param inputs what was read
 * @param shard which share of the rows was judged; null for all of them
 * @param rows how many rows were read and what became of them
 * @param problems what could not be used as given, up to {@link #MOST_PROBLEMS}
 * @param outputs the other files of the study
 */
public record StudyLog(
    String program,
    Settings settings,
    Inputs inputs,
    @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Share shard,
    Rows rows,
    List<Problem> problems,
    List<Checked> outputs) {
  /** So many problems are kept; the rest is counted. */
  public static final int MOST_PROBLEMS = 1000;

  /** Copies the lists. */
  public StudyLog {
    problems = List.copyOf(problems);
    outputs = List.copyOf(outputs);
  }

  /**
   * What was asked for; names of files are as the caller gave them.
   *
   * @param prompts the folder of prompts
   * @param responses the responses
   * @param by columns compared
   * @param cluster the columns that name clusters, with a comma between two
   * @param draft the column that tells drafts apart, and where it was given their order
   * @param writer the column that names the writer of drafts
   * @param codes the codes to correct by
   * @param level the level of intervals
   * @param seed the seed of bootstrap intervals
   * @param lexicon folders of lexicon files
   * @param meaning whether sentences were also compared by meaning
   * @param gzip whether the tables are compressed
   * @param judge by what responses are judged: "features", or "features and reader"
   * @param leastWords responses of fewer words are left out of the figures; 0 where none is
   * @param parquet whether demands.parquet is written too
   * @param planFile the file that fixed all this beforehand
   */
  public record Settings(
      String prompts,
      String responses,
      List<String> by,
      @Nullable String cluster,
      @Nullable String draft,
      @Nullable String writer,
      @Nullable String codes,
      double level,
      long seed,
      List<String> lexicon,
      boolean meaning,
      boolean gzip,
      String judge,
      int leastWords,
      boolean parquet,
      @Nullable String planFile) {
    /** Copies the lists. */
    public Settings {
      by = List.copyOf(by);
      lexicon = List.copyOf(lexicon);
    }

    /** Returns these settings with the name of the judge. */
    public Settings judgedBy(String name) {
      return new Settings(
          prompts,
          responses,
          by,
          cluster,
          draft,
          writer,
          codes,
          level,
          seed,
          lexicon,
          meaning,
          gzip,
          name,
          leastWords,
          parquet,
          planFile);
    }
  }

  /**
   * What was read.
   *
   * @param responses the responses
   * @param groups the further columns of the responses
   * @param prompts the prompts
   * @param doubts what a person should look at in the prompts
   * @param codes the codes; null without
   * @param lexicon the lexicon files
   * @param plan what was fixed beforehand; null without
   */
  public record Inputs(
      Checked responses,
      List<String> groups,
      List<PromptFile> prompts,
      List<String> doubts,
      @Nullable Checked codes,
      List<Checked> lexicon,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Plan plan) {
    /** Copies the lists. */
    public Inputs {
      groups = List.copyOf(groups);
      prompts = List.copyOf(prompts);
      doubts = List.copyOf(doubts);
      lexicon = List.copyOf(lexicon);
    }
  }

  /**
   * A file and its checksum.
   *
   * @param name the file's name
   * @param sha256 the SHA-256 of its bytes; null for standard input
   */
  public record Checked(String name, @Nullable String sha256) {}

  /**
   * What was fixed before the study.
   *
   * @param name the file's name
   * @param sha256 the SHA-256 of the file; null for standard input
   * @param primary the planned comparison
   */
  public record Plan(String name, @Nullable String sha256, Primary primary) {}

  /**
   * The one comparison that a study was planned for.
   *
   * @param compare the column whose groups are compared, or "drafts"
   * @param groups the two groups; empty for drafts
   * @param kind the kind of demand; null for all demands
   */
  public record Primary(String compare, List<String> groups, @Nullable String kind) {
    /** Copies the list. */
    public Primary {
      groups = List.copyOf(groups);
    }

    /** Returns whether the first and the last drafts are compared. */
    public boolean ofDrafts() {
      return compare.equals("drafts");
    }
  }

  /**
   * A prompt.
   *
   * @param id its id
   * @param title its title, or its id
   * @param file the file it was read from
   * @param sha256 the SHA-256 of the file; null for standard input
   */
  public record PromptFile(String id, String title, String file, @Nullable String sha256) {}

  /**
   * A share of the rows: those whose running number leaves the same remainder.
   *
   * @param index which share, from 1
   * @param of how many shares there are
   */
  public record Share(int index, int of) {
    /** Returns whether a row is in this share. */
    public boolean takes(long row) {
      return (row - 1) % of == index - 1;
    }
  }

  /**
   * The rows.
   *
   * @param read how many rows there are
   * @param judged how many of them have a result here
   * @param lost the running numbers of the rows of this share without a result, as first and last
   *     of each run
   * @param problems how many problems there were, listed or not
   * @param faults how many of them kept something from being used as given
   * @param reasons why rows of this share have no result, or a result that may not count
   */
  public record Rows(
      long read, long judged, List<List<Long>> lost, long problems, long faults, Reasons reasons) {
    /** Of no rows. */
    public static final Rows NONE = new Rows(0, 0, List.of(), 0, 0, Reasons.NONE);

    /** Copies the list. */
    public Rows {
      lost = List.copyOf(lost);
    }
  }

  /**
   * How many rows there are of each {@link Exclusion}; none is counted twice.
   *
   * @param unreadable could not be read
   * @param unknownPrompt name no prompt that was given
   * @param notJudged could not be judged
   * @param empty have a result, and not one word
   * @param tooShort have a result, and words, yet fewer than asked for
   */
  public record Reasons(
      long unreadable, long unknownPrompt, long notJudged, long empty, long tooShort) {
    /** Of no rows. */
    public static final Reasons NONE = new Reasons(0, 0, 0, 0, 0);
  }

  /**
   * A problem.
   *
   * @param row the running number of the row it is about, from 1; 0 when it is about no row
   * @param fault whether something could not be used as given
   * @param sentence what is wrong, where, and how to mend it
   */
  public record Problem(long row, boolean fault, String sentence) {}

  /** Returns the title of a prompt. */
  String title(String promptId) {
    return inputs.prompts().stream()
        .filter(prompt -> prompt.id().equals(promptId))
        .map(PromptFile::title)
        .findFirst()
        .orElse(promptId);
  }

  /** Returns a sentence for each problem listed, and one for those that are not. */
  List<String> sentences() {
    List<String> sentences = new ArrayList<>();
    problems.forEach(problem -> sentences.add(problem.sentence()));
    if (rows.problems() > problems.size()) {
      sentences.add("And " + (rows.problems() - problems.size()) + " more.");
    }
    return sentences;
  }

  /** Returns what the whole study was asked for, of which this may be a share. */
  public StudyLog whole() {
    return new StudyLog(program, settings, inputs, null, Rows.NONE, List.of(), List.of());
  }

  /** Returns the log with the files that were written. */
  public StudyLog wrote(List<Checked> files) {
    return new StudyLog(program, settings, inputs, shard, rows, problems, files);
  }

  /** Returns the log as JSON. */
  public String json() {
    try {
      return Json.MAPPER.writer(Json.indented()).writeValueAsString(this) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a log is always JSON", e);
    }
  }

  /** Reads a log, or nothing when the text is none. */
  public static Optional<StudyLog> read(String json) {
    try {
      return Optional.of(Json.MAPPER.readValue(json, StudyLog.class));
    } catch (JsonProcessingException | RuntimeException e) {
      return Optional.empty();
    }
  }
}

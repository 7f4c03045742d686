package everypart.cli.command;

import everypart.cli.run.ExitStatus;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Gives the program each of {@link HostileCases} among good files, and tells what went wrong: a
 * good file that is not reported as it is without the other, a file that is passed over in silence,
 * an end by a fault of the program, a trace or a control sign on the terminal, a script in the
 * page, a file outside the folder of results, a time that nobody waits.
 *
 * <p>{@code .ci/hostile} runs {@link #main}: in processes of 512 MB, each of which is ended when a
 * file takes too long. {@link HostileTrialTest} tries the small files with each build.
 */
final class HostileTrial {
  private static final int GOOD = 6;

  /** Nobody waits longer for a class; the bound on one file's reading is a sixth of it. */
  private static final int MOST_SECONDS = 120;

  /** What is told of by its seconds in the record. */
  private static final double SLOW_SECONDS = 20;

  private static final String MEMORY = "-Xmx512m";
  private static final Pattern PLAIN_NAME = Pattern.compile("[A-Za-z0-9._-]+");
  private static final Pattern SIGNS = Pattern.compile("[\\p{Cc}\\p{Cf}&&[^\\n\\t]]");
  private static final Pattern FORMULA =
      Pattern.compile("(^|[,;\\t\"])[=@][A-Za-z0-9]", Pattern.MULTILINE);

  private final Path base;
  private final List<String> reported;

  /**
   * Begins.
   *
   * @param base a folder of its own
   */
  HostileTrial(Path base) throws IOException {
    this.base = base;
    Path set = Files.createDirectories(base.resolve("good/set"));
    good(set);
    Run run = Run.of("screen", prompt(), set, "--quick", "--out", base.resolve("good/out"));
    if (run.status() != ExitStatus.DONE) {
      throw new IllegalStateException(run.err());
    }
    this.reported = Files.readAllLines(results());
    Files.writeString(
        base.resolve("good/codes.csv"),
        "response_id,part,demand,coder,code\nm0,a,1,c1,1\nm1,a,1,c1,0\nm2,a,1,c1,1\n");
    Files.writeString(
        base.resolve("good/answers.csv"),
        "response_id,prompt_id,class,text\nm0,q,e,They hide because birds hunt them.\nm1,q,w,No.\n");
  }

  private static void good(Path set) throws IOException {
    for (int i = 0; i < GOOD; i++) {
      Files.writeString(
          set.resolve("m" + i + ".txt"),
          i % 2 == 0 ? "They hide because birds hunt them, " + i + " at a time." : "No idea, " + i);
    }
  }

  private Path prompt() throws IOException {
    Path folder = Files.createDirectories(base.resolve("good/prompts"));
    Path file = folder.resolve("q.txt");
    return Files.exists(file)
        ? file
        : Files.writeString(file, "(a) Explain why the pipkins hide.\n");
  }

  private Path results() {
    return base.resolve("good/out/results.jsonl");
  }

  /** Lays a file among good ones, in a folder of its own, and returns that. */
  static Path lay(Path folder, HostileCases.Case one) throws IOException {
    Path set = Files.createDirectories(folder.resolve("set"));
    switch (one.use()) {
      case PROMPT -> {
        for (String name : List.of("g1", "g2", "g3")) {
          Files.writeString(set.resolve(name + ".md"), "(a) Describe the pool of " + name + ".\n");
        }
      }
      case RESPONSE -> good(set);
      default -> {}
    }
    one.maker().make(set.resolve(one.name()));
    return folder;
  }

  /** Tries a file; returns what is wrong, or nothing. */
  Optional<String> fault(HostileCases.Use use, Path folder, String name) throws IOException {
    Path set = folder.resolve("set");
    Path given = set.resolve(name);
    Path out = folder.resolve("out");
    List<Run> runs = new ArrayList<>();
    switch (use) {
      case RESPONSE -> runs.add(Run.of("screen", prompt(), set, "--quick", "--out", out));
      case STUDY -> runs.add(study(out, "--responses", given));
      case PROMPT -> runs.add(Run.of("outline", "--format", "jsonl", set));
      case CORRECTIONS -> runs.add(screen(out, "--corrections", given));
      case REGISTER -> runs.add(screen(out, "--register", given));
      case NAMES -> runs.add(screen(out, "--redact", given));
      case CODES -> runs.add(Run.of("agree", "--codes", given, "--results", results()));
      case RESULTS ->
          runs.add(Run.of("agree", "--codes", base.resolve("good/codes.csv"), "--results", given));
      case LEXICON -> {
        runs.add(Run.of("lexicon", "check", set));
        runs.add(screen(out, "--lexicon", set));
      }
      case PLAN ->
          runs.add(
              study(out, "--responses", base.resolve("good/answers.csv"), "--plan-file", given));
    }
    for (Run run : runs) {
      Optional<String> fault = spoken(run);
      if (fault.isPresent()) {
        return fault;
      }
    }
    Run run = runs.get(0);
    return switch (use) {
      case RESPONSE -> reported(run, out, name);
      case PROMPT ->
          Stream.of("g1", "g2", "g3").allMatch(id -> run.out().contains("\"" + id + "\""))
              ? named(run, name)
              : Optional.of("a good prompt is not read: " + run.err());
      default -> written(out);
    };
  }

  private Run screen(Path out, Object... more) throws IOException {
    List<Object> words = new ArrayList<>(List.of("screen", prompt(), base.resolve("good/set")));
    words.addAll(List.of("--quick", "--out", out));
    words.addAll(List.of(more));
    return Run.of(words.toArray());
  }

  private Run study(Path out, Object... more) throws IOException {
    prompt();
    List<Object> words =
        new ArrayList<>(List.of("study", "--prompts", base.resolve("good/prompts")));
    words.addAll(List.of("--quick", "--out", out));
    words.addAll(List.of(more));
    return Run.of(words.toArray());
  }

  private static Optional<String> spoken(Run run) {
    if (run.status() != ExitStatus.DONE
        && run.status() != ExitStatus.INPUT_LOST
        && run.status() != ExitStatus.WRONG_CALL) {
      return Optional.of("status " + run.status() + ": " + shortened(run.err()));
    }
    if (run.err().contains("\tat ") || run.err().contains("Exception")) {
      return Optional.of("speaks of its own inside: " + shortened(run.err()));
    }
    if (SIGNS.matcher(run.err()).find()) {
      return Optional.of("writes control signs: " + shortened(run.err()));
    }
    return run.status() != ExitStatus.DONE && (run.err() + run.out()).isBlank()
        ? Optional.of("status " + run.status() + " without a word")
        : Optional.empty();
  }

  private Optional<String> reported(Run run, Path out, String name) throws IOException {
    if (!Files.exists(out.resolve("results.jsonl"))) {
      return Optional.of("no results: " + shortened(run.err()));
    }
    List<String> lines = Files.readAllLines(out.resolve("results.jsonl"));
    for (String line : reported) {
      if (!lines.contains(line)) {
        return Optional.of("a good file is not reported as it is: " + shortened(run.err()));
      }
    }
    if (run.status() == ExitStatus.DONE && lines.size() == reported.size()) {
      Optional<String> silent = named(run, name);
      if (silent.isPresent()) {
        return silent;
      }
    }
    return run.status() == ExitStatus.DONE ? written(out) : named(run, name).or(() -> written(out));
  }

  /** Tells whether a file that leaves nothing is passed over in silence. */
  private static Optional<String> named(Run run, String name) {
    boolean quiet = run.status() == ExitStatus.DONE && run.err().isEmpty() && !run.out().isEmpty();
    return quiet || !PLAIN_NAME.matcher(name).matches() || run.err().contains(name)
        ? Optional.empty()
        : Optional.of("it is not named: " + shortened(run.err()));
  }

  private Optional<String> written(Path out) {
    try {
      Path page = out.resolve("index.html");
      if (Files.exists(page) && Files.readString(page).contains("<script>alert")) {
        return Optional.of("a script stands in the page");
      }
      for (String table : List.of("matrix.csv", "demands.csv")) {
        Path file = out.resolve(table);
        if (Files.exists(file) && FORMULA.matcher(Files.readString(file)).find()) {
          return Optional.of("a formula stands in " + table);
        }
      }
      try (Stream<Path> beside = Files.list(base)) {
        if (beside.anyMatch(path -> path.getFileName().toString().contains("evil"))
            || Files.exists(Path.of("/evil.txt"))) {
          return Optional.of("it wrote outside of its folder");
        }
      }
      return Optional.empty();
    } catch (IOException e) {
      return Optional.of("what was written cannot be read: " + e);
    }
  }

  private static String shortened(String words) {
    String visible = words.strip().replaceAll("\\p{Cntrl}", "~");
    return visible.length() < 400 ? visible : visible.substring(0, 400) + " ...";
  }

  static void remove(Path folder) throws IOException {
    if (!Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    Files.walkFileTree(
        folder,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes is) throws IOException {
            Files.delete(file);
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult postVisitDirectory(Path dir, java.io.IOException fault)
              throws IOException {
            Files.delete(dir);
            return FileVisitResult.CONTINUE;
          }
        });
  }

  // The processes

  private static final String END = "\u0003end\t";

  /** Tries what standard input names, a line each, and prints what came of each. */
  private static void work(Path base) throws IOException {
    PrintStream told = System.out;
    HostileTrial trial = new HostileTrial(base);
    told.println(END + "ready");
    try (BufferedReader in =
        new BufferedReader(new java.io.InputStreamReader(System.in, StandardCharsets.UTF_8))) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        String[] words = line.split("\t", 2);
        Path folder = Path.of(words[1]);
        String name = Files.readString(folder.resolve("name"));
        Optional<String> fault;
        try {
          fault = trial.fault(HostileCases.Use.valueOf(words[0]), folder, name);
        } catch (RuntimeException | Error e) {
          fault = Optional.of("threw " + e);
        }
        boolean busy =
            Thread.getAllStackTraces().keySet().stream()
                .anyMatch(thread -> thread.getName().equals("reader"));
        told.println(END + (busy ? "busy" : "free") + "\t" + fault.orElse("").replace('\n', ' '));
      }
    }
  }

  /** A process that tries files until one holds it up. */
  private static final class Worker {
    private final Process process;
    private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();

    Worker(Path base, Path log) throws IOException, InterruptedException {
      process =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  MEMORY,
                  "-Dstdout.encoding=UTF-8",
                  "-cp",
                  System.getProperty("java.class.path"),
                  HostileTrial.class.getName(),
                  "--work",
                  base.toString())
              .redirectError(ProcessBuilder.Redirect.appendTo(log.toFile()))
              .start();
      Thread reader =
          new Thread(
              () -> {
                try (BufferedReader in = process.inputReader(StandardCharsets.UTF_8)) {
                  in.lines().filter(line -> line.startsWith(END)).forEach(lines::add);
                } catch (IOException | java.io.UncheckedIOException e) {
                  // The process was ended.
                }
                lines.add("");
              });
      reader.setDaemon(true);
      reader.start();
      answer();
    }

    Optional<String> answer() throws InterruptedException {
      return Optional.ofNullable(lines.poll(MOST_SECONDS, TimeUnit.SECONDS));
    }

    void ask(String line) throws IOException {
      var out = process.outputWriter(StandardCharsets.UTF_8);
      out.write(line + "\n");
      out.flush();
    }

    void end() throws InterruptedException {
      process.destroyForcibly().waitFor();
    }
  }

  /**
   * Tries files.
   *
   * @param args a folder to work in; a part and how many parts there are, as 1/8; the families,
   *     uses or beginnings of names that are tried, all where there are none
   */
  public static void main(String[] args) throws IOException, InterruptedException {
    if (args[0].equals("--work")) {
      work(Path.of(args[1]));
      return;
    }
    Path base = Files.createDirectories(Path.of(args[0]).toAbsolutePath());
    String[] part = args[1].split("/", 2);
    List<String> wanted = List.of(args).subList(2, args.length);
    List<HostileCases.Case> cases = new ArrayList<>();
    List<HostileCases.Case> all = HostileCases.all();
    for (int i = 0; i < all.size(); i++) {
      HostileCases.Case one = all.get(i);
      if (i % Integer.parseInt(part[1]) == Integer.parseInt(part[0]) - 1
          && (wanted.isEmpty()
              || wanted.stream()
                  .anyMatch(
                      word ->
                          one.family().equals(word)
                              || one.use().name().equalsIgnoreCase(word)
                              || one.name().startsWith(word)))) {
        cases.add(one);
      }
    }
    System.out.println(HostileCases.counted(cases));
    System.exit(tryAll(base, cases) ? 0 : 1);
  }

  private static boolean tryAll(Path base, List<HostileCases.Case> cases)
      throws IOException, InterruptedException {
    Map<String, String> faults = new LinkedHashMap<>();
    Map<String, Double> slow = new LinkedHashMap<>();
    Worker worker = null;
    for (int i = 0; i < cases.size(); i++) {
      HostileCases.Case one = cases.get(i);
      if (worker == null) {
        worker = new Worker(base.resolve("w" + i), base.resolve("log.txt"));
      }
      Path folder = base.resolve("c" + i);
      String what = one.use() + " " + one.family() + ": " + one.name();
      try {
        lay(folder, one);
        Files.writeString(folder.resolve("name"), one.name());
      } catch (IOException | RuntimeException e) {
        System.out.println("cannot be made here: " + what + ": " + e);
        remove(folder);
        continue;
      }
      long start = System.nanoTime();
      worker.ask(one.use() + "\t" + folder);
      Optional<String> answer = worker.answer();
      double took = (System.nanoTime() - start) / 1e9;
      if (took > SLOW_SECONDS) {
        slow.put(what, took);
      }
      String said = answer.orElse("not done after " + MOST_SECONDS + " seconds");
      boolean goesOn = said.startsWith(END + "free");
      String fault =
          said.startsWith(END)
              ? said.substring(said.indexOf('\t', END.length()) + 1)
              : said.isEmpty() ? "the process ended" : said;
      if (!fault.isEmpty()) {
        faults.put(what, fault);
        System.out.println("FAULT " + what + ": " + fault);
      } else if (said.startsWith(END + "busy")) {
        System.out.println("left a thread at work: " + what);
      }
      if (!goesOn) {
        worker.end();
        worker = null;
      }
      remove(folder);
    }
    if (worker != null) {
      worker.end();
    }
    slow.forEach(
        (what, seconds) ->
            System.out.println(String.format(Locale.ROOT, "slow, %.0f s: %s", seconds, what)));
    System.out.println(
        cases.size()
            + " files tried, "
            + faults.size()
            + " did harm; memory "
            + MEMORY.substring(4));
    return faults.isEmpty();
  }
}

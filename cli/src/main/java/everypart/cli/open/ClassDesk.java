package everypart.cli.open;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Arrival;
import everypart.cli.intake.Arrivals;
import everypart.cli.intake.Choices;
import everypart.cli.intake.Corrections;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Place;
import everypart.cli.intake.Response;
import everypart.cli.intake.ResponseFiles;
import everypart.cli.intake.Sources;
import everypart.cli.intake.UniqueIds;
import everypart.cli.intake.document.Limits;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;

/** The classes of a visit: dropped, looked at, worked in, saved and opened again. */
final class ClassDesk {
  private static final long LARGEST_FILE = 200L << 20;
  private static final long LARGEST_PAGE = 256L << 20;
  private static final int MOST_FILES = 5000;
  private static final String DATA = "<script type=\"application/json\" id=\"data\">";

  /** A name of a file or folder as a browser gives it: no way out of the folder it is put in. */
  private static final Pattern NAME = Pattern.compile("[^/\\\\\\p{Cntrl}:*?\"<>|]{1,200}");

  private final CoverageAnalyzer analyzer;
  private final Desk desk;
  private final Map<String, ClassSet> classes = new ConcurrentHashMap<>();
  private final Map<String, Waiting> waiting = new ConcurrentHashMap<>();
  private final AtomicInteger numbers = new AtomicInteger();

  /** Files that are being dropped. */
  private static final class Waiting {
    final Path folder;
    final AtomicInteger files = new AtomicInteger();

    Waiting(Path folder) {
      this.folder = folder;
    }
  }

  ClassDesk(CoverageAnalyzer analyzer, Desk desk) {
    this.analyzer = analyzer;
    this.desk = desk;
  }

  /** Answers {@code class/...}. */
  void answer(LocalServer.Asked asked) throws IOException, Refusal {
    List<String> way = asked.way();
    if (asked.is("POST", "class")) {
      String id = String.valueOf(numbers.incrementAndGet());
      waiting.put(id, new Waiting(Files.createTempDirectory("everypart")));
      json(asked, Desk.JSON.createObjectNode().put("id", id));
    } else if (asked.is("POST", "class", "saved")) {
      byte[] bytes = asked.bytes(LARGEST_FILE);
      try {
        json(asked, saved(bytes));
      } catch (Refusal noClass) { // not a fault: it may be a class that is yet to be read
        json(asked, Desk.JSON.createObjectNode().put("why", noClass.sentence()));
      }
    } else if (way.size() == 3) {
      one(asked, way.get(1), way.get(2));
    } else {
      throw new Refusal(404, Sayings.of("refused.place"));
    }
  }

  private void one(LocalServer.Asked asked, String id, String what) throws IOException, Refusal {
    switch (asked.method() + " " + what) {
      case "POST file" -> {
        put(files(id), Desk.query(asked).getOrDefault("name", ""), asked.bytes(LARGEST_FILE));
        json(asked, Desk.JSON.createObjectNode());
      }
      case "POST run" -> run(asked, id);
      case "GET " ->
          LocalServer.send(
              asked.exchange(), 200, "text/html", LocalServer.bytes(classSet(id).page(true)));
      case "POST state" -> {
        classSet(id).keep(asked.text());
        json(asked, Desk.JSON.createObjectNode());
      }
      case "POST save" -> {
        ClassSet set = classSet(id);
        set.keep(asked.text());
        LocalServer.send(asked.exchange(), 200, "application/zip", set.zip());
      }
      case "GET prompt" -> json(asked, desk.shown(classSet(id).prompts().get(0)));
      case "POST again" -> {
        ClassSet old = classSet(id);
        Prompt prompt = desk.prompt(Desk.json(asked.text()).path("model").asText());
        ClassSet fresh = new ClassSet(analyzer, List.of(prompt), old.name());
        old.answers().forEach(fresh::add);
        old.problems().forEach(fresh::add);
        fresh.keepWhatFits(old);
        classes.put(id, fresh);
        json(asked, Desk.JSON.createObjectNode().put("id", id));
      }
      default -> throw new Refusal(404, Sayings.of("refused.place"));
    }
  }

  private static void json(LocalServer.Asked asked, ObjectNode node) throws IOException {
    LocalServer.send(asked.exchange(), 200, "application/json", LocalServer.bytes(node.toString()));
  }

  private ClassSet classSet(String id) throws Refusal {
    ClassSet set = classes.get(id);
    if (set == null) {
      throw new Refusal(410, Sayings.of("refused.gone"));
    }
    return set;
  }

  private Waiting files(String id) throws Refusal {
    Waiting files = waiting.get(id);
    if (files == null) {
      throw new Refusal(410, Sayings.of("refused.gone"));
    }
    return files;
  }

  /** Puts a dropped file where it is read from; its name may have folders before it. */
  private static void put(Waiting files, String name, byte[] bytes) throws IOException, Refusal {
    if (files.files.incrementAndGet() > MOST_FILES) {
      throw new Refusal(413, Sayings.of("refused.files", MOST_FILES));
    }
    Path target = files.folder;
    for (String step : name.split("/", -1)) {
      if (!NAME.matcher(step).matches() || step.equals(".") || step.equals("..")) {
        throw new Refusal(422, Sayings.of("refused.name"));
      }
      target = target.resolve(step);
    }
    if (!target.normalize().startsWith(files.folder)) {
      throw new Refusal(422, Sayings.of("refused.name"));
    }
    Path parent = target.getParent();
    if (parent != null) {
      Files.createDirectories(parent);
    }
    Files.write(target, bytes);
  }

  /** Reads the dropped files, one line of JSON for each that is done, and at last the class. */
  private void run(LocalServer.Asked asked, String id) throws IOException, Refusal {
    JsonNode wish = Desk.json(asked.text());
    Prompt prompt = desk.prompt(wish.path("model").asText());
    Waiting files = waiting.remove(id);
    if (files == null) {
      throw new Refusal(409, Sayings.of("refused.busy"));
    }
    asked.exchange().getResponseHeaders().set("Content-Type", "application/x-ndjson");
    asked.exchange().sendResponseHeaders(200, 0);
    try (OutputStream out = asked.exchange().getResponseBody()) {
      line(out, read(files, prompt, id, wish.path("name").asText("class"), out));
    }
  }

  /** Reads the dropped files and removes them; returns the last line to send. */
  private ObjectNode read(Waiting files, Prompt prompt, String id, String name, OutputStream out)
      throws IOException {
    ClassSet set = new ClassSet(analyzer, List.of(prompt), name);
    try {
      List<InputProblem> notes = new ArrayList<>();
      Sources sources = new Sources(InputStream.nullInputStream(), Limits.USUAL, notes::add);
      long total;
      try (ResponseFiles count = responses(sources, prompt, files.folder, note -> {})) {
        total = count.left().orElse(0);
      }
      try (Arrivals arrivals =
          new UniqueIds(responses(sources, prompt, files.folder, notes::add), notes::add)) {
        long done = 0;
        while (arrivals.hasNext()) {
          Arrival arrival = arrivals.next();
          if (arrival instanceof Response response) {
            try {
              set.add(
                  new ClassSet.Answer(
                      response.id(), prompt.id(), response.text(), response.groups()));
            } catch (RuntimeException e) {
              notes.add(
                  InputProblem.fault(
                      response.place(), Sayings.of("class.broke", response.id()), ""));
            }
          } else if (arrival instanceof InputProblem problem) {
            notes.add(problem);
          }
          done++;
          line(
              out, Desk.JSON.createObjectNode().put("done", done).put("of", Math.max(done, total)));
        }
      }
      notes.stream().map(note -> relative(note, files.folder)).forEach(set::add);
      ObjectNode end = Desk.JSON.createObjectNode();
      ArrayNode problems = end.putArray("problems");
      set.problems().forEach(problem -> problems.add(problem.sentence()));
      if (set.answers().isEmpty()) {
        end.put("why", Sayings.of("class.none"));
      } else {
        classes.put(id, set);
        end.put("id", id);
      }
      end.put("read", set.answers().size());
      return end;
    } finally {
      delete(files.folder);
    }
  }

  private static ResponseFiles responses(
      Sources sources,
      Prompt prompt,
      Path folder,
      java.util.function.Consumer<InputProblem> notes) {
    return new ResponseFiles(
        sources, List.of(prompt), Choices.NONE, List.of(folder.toString()), notes);
  }

  private static void line(OutputStream out, ObjectNode node) throws IOException {
    out.write(LocalServer.bytes(node + "\n"));
    out.flush();
  }

  /** Names a file as it was dropped, not where it stood meanwhile. */
  private static InputProblem relative(InputProblem problem, Path folder) {
    String source = problem.place().source();
    String base = folder.toString();
    String named =
        source.equals(base)
            ? "the class"
            : source.startsWith(base) ? source.substring(base.length() + 1) : source;
    return new InputProblem(
        new Place(named, problem.place().line()), problem.what(), problem.mend(), problem.weight());
  }

  /** Opens a class that was saved: its page, or a zip file that holds it. */
  private ObjectNode saved(byte[] bytes) throws IOException, Refusal {
    String page = page(bytes).orElseThrow(() -> new Refusal(422, Sayings.of("class.notSaved")));
    int from = page.indexOf(DATA);
    int to = from < 0 ? -1 : page.indexOf("</script>", from);
    if (to < 0) {
      throw new Refusal(422, Sayings.of("class.notSaved"));
    }
    try {
      JsonNode data = Desk.JSON.readTree(page.substring(from + DATA.length(), to));
      if (!data.path("format").asText().equals("everypart-class")) {
        throw new Refusal(422, Sayings.of("class.notSaved"));
      }
      ClassSet set = ClassSet.of(analyzer, data);
      String id = String.valueOf(numbers.incrementAndGet());
      classes.put(id, set);
      return Desk.JSON.createObjectNode().put("id", id);
    } catch (JsonProcessingException | IllegalArgumentException e) {
      throw new Refusal(422, Sayings.of("class.notSaved"));
    }
  }

  private static Optional<String> page(byte[] bytes) throws IOException {
    if (bytes.length > 2 && bytes[0] == 'P' && bytes[1] == 'K') {
      try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(bytes))) {
        for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
          if (entry.getName().equals("index.html") || entry.getName().endsWith("/index.html")) {
            byte[] page = zip.readNBytes((int) LARGEST_PAGE);
            return Optional.of(new String(page, StandardCharsets.UTF_8));
          }
        }
      } catch (IOException damaged) {
        return Optional.empty();
      }
      return Optional.empty();
    }
    return Optional.of(new String(bytes, StandardCharsets.UTF_8));
  }

  private static void delete(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Removes what was dropped and not read. */
  void close() {
    new LinkedHashMap<>(waiting).values().forEach(files -> delete(files.folder));
    waiting.clear();
  }

  /** Checks that corrections fit prompts. */
  static Corrections corrections(String json, List<Prompt> prompts) throws Refusal {
    try {
      return Corrections.of(json, prompts);
    } catch (InputException e) {
      throw new Refusal(422, e.problem().sentence());
    }
  }
}

package everypart.cli.open;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import everypart.analyzer.coverage.CoverageAnalyzer;
import everypart.analyzer.prompt.Prompt;
import everypart.cli.intake.Corrections;
import everypart.cli.intake.InputException;
import everypart.cli.intake.InputProblem;
import everypart.cli.intake.Response;
import everypart.cli.intake.Room;
import everypart.cli.intake.SamePerson;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;

/** The classes of a visit: dropped, looked at, worked in, saved and opened again. */
final class ClassDesk {
  private static final long LARGEST_FILE = 200L << 20;
  private static final long LARGEST_PAGE = 256L << 20;
  private static final String DATA = "<script type=\"application/json\" id=\"data\">";

  /** How much of each of several answers of one person is shown. */
  private static final int BEGINNING = 160;

  private final CoverageAnalyzer analyzer;
  private final Desk desk;
  private final Map<String, ClassSet> classes = new ConcurrentHashMap<>();
  private final Map<String, DroppedClass> waiting = new ConcurrentHashMap<>();
  private final Map<String, DroppedClass.ClassList> lists = new ConcurrentHashMap<>();
  private final AtomicInteger numbers = new AtomicInteger();

  ClassDesk(CoverageAnalyzer analyzer, Desk desk) {
    this.analyzer = analyzer;
    this.desk = desk;
  }

  /** Answers {@code class/...}. */
  void answer(LocalServer.Asked asked) throws IOException, Refusal {
    List<String> way = asked.way();
    if (asked.is("POST", "class")) {
      String id = String.valueOf(numbers.incrementAndGet());
      waiting.put(id, new DroppedClass());
      json(asked, Desk.JSON.createObjectNode().put("id", id));
    } else if (asked.is("POST", "class", "register")) {
      json(asked, register(Desk.query(asked).getOrDefault("name", ""), asked));
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
        files(id).put(Desk.query(asked).getOrDefault("name", ""), asked.bytes(LARGEST_FILE));
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

  private DroppedClass files(String id) throws Refusal {
    DroppedClass files = waiting.get(id);
    if (files == null) {
      throw new Refusal(410, Sayings.of("refused.gone"));
    }
    return files;
  }

  /** Reads the list of a class. */
  private ObjectNode register(String name, LocalServer.Asked asked) throws IOException, Refusal {
    DroppedClass.ClassList list = DroppedClass.register(name, asked.bytes(LARGEST_FILE));
    String id = String.valueOf(numbers.incrementAndGet());
    lists.put(id, list);
    ObjectNode node = Desk.JSON.createObjectNode();
    node.put("id", id).put("people", list.register().size());
    problems(node, list.problems());
    return node;
  }

  private static void problems(ObjectNode node, List<InputProblem> problems) {
    ArrayNode said = node.putArray("problems");
    ArrayNode unread = node.putArray("unread");
    problems.forEach(
        problem ->
            (problem.weight() == InputProblem.Weight.FAULT ? unread : said)
                .add(problem.sentence()));
  }

  /**
   * Reads the dropped files, one line of JSON for each that is done, and at last the class, or what
   * is to be decided before.
   */
  private void run(LocalServer.Asked asked, String id) throws IOException, Refusal {
    JsonNode wish = Desk.json(asked.text());
    Prompt prompt = desk.prompt(wish.path("model").asText());
    Optional<DroppedClass.ClassList> list = Optional.empty();
    if (wish.hasNonNull("register")) {
      list = Optional.ofNullable(lists.get(wish.path("register").asText()));
      if (list.isEmpty()) {
        throw new Refusal(410, Sayings.of("refused.gone"));
      }
    }
    DroppedClass files = files(id);
    files.take();
    boolean held = true;
    try {
      asked.exchange().getResponseHeaders().set("Content-Type", "application/x-ndjson");
      asked.exchange().sendResponseHeaders(200, 0);
      try (OutputStream out = asked.exchange().getResponseBody()) {
        files.read(prompt, (done, total) -> line(out, step("read", done, total)));
        List<SamePerson.Several> several = files.ofOnePerson(list);
        List<SamePerson.Decision> decisions = decisions(wish.path("same"), several);
        boolean asking = decisions.size() < several.size();
        ObjectNode last =
            asking
                ? ask(several, list.isPresent())
                : look(files, prompt, list, several, decisions, id, wish, out);
        // The page may go on as soon as it has the last line.
        if (!asking) {
          waiting.remove(id);
        }
        files.free();
        held = false;
        line(out, last);
      }
    } finally {
      if (held) {
        waiting.remove(id);
        files.free();
      }
    }
  }

  private static ObjectNode step(String what, long done, long total) {
    return Desk.JSON.createObjectNode().put(what, done).put("of", total);
  }

  /** Returns the decisions that the page sent; fewer where they are not for these. */
  private static List<SamePerson.Decision> decisions(
      JsonNode sent, List<SamePerson.Several> several) {
    List<SamePerson.Decision> decisions = new ArrayList<>();
    for (int i = 0; i < several.size() && sent.size() == several.size(); i++) {
      JsonNode one = sent.get(i);
      if (one.isInt() && one.asInt() >= 0 && one.asInt() < several.get(i).places().size()) {
        decisions.add(new SamePerson.Decision(SamePerson.What.KEEP, one.asInt()));
      } else if (one.asText().equals("join") || one.asText().equals("apart")) {
        boolean join = one.asText().equals("join");
        decisions.add(
            new SamePerson.Decision(join ? SamePerson.What.JOIN : SamePerson.What.APART, 0));
      }
    }
    return decisions;
  }

  /** Returns what is to be asked about several answers of one person. */
  private static ObjectNode ask(List<SamePerson.Several> several, boolean registered) {
    ObjectNode node = Desk.JSON.createObjectNode().put("registered", registered);
    ArrayNode asks = node.putArray("ask");
    for (SamePerson.Several one : several) {
      ObjectNode person = asks.addObject().put("person", one.person());
      person.put("alike", one.responses().stream().map(Response::text).distinct().count() == 1);
      ArrayNode answers = person.putArray("answers");
      for (Response response : one.responses()) {
        String line = response.text().strip().replaceAll("\\s+", " ");
        answers
            .addObject()
            .put("file", response.place().toString())
            .put("words", line.isEmpty() ? 0 : line.split(" ", -1).length)
            .put(
                "begins",
                line.length() > BEGINNING ? line.substring(0, BEGINNING) + " \u2026" : line);
      }
    }
    return node;
  }

  /** Judges all answers; returns the last line to send. */
  private ObjectNode look(
      DroppedClass files,
      Prompt prompt,
      Optional<DroppedClass.ClassList> list,
      List<SamePerson.Several> several,
      List<SamePerson.Decision> decisions,
      String id,
      JsonNode wish,
      OutputStream out)
      throws IOException {
    ClassSet set = new ClassSet(analyzer, List.of(prompt), wish.path("name").asText("class"));
    List<Response> answers = files.answers(prompt, list, several, decisions, set::add);
    int read = 0;
    for (int i = 0; i < answers.size(); i++) {
      Response response = answers.get(i);
      try {
        set.add(
            new ClassSet.Answer(response.id(), prompt.id(), response.text(), response.groups()));
        read += response.text().isBlank() ? 0 : 1;
      } catch (RuntimeException e) {
        set.add(
            InputProblem.fault(
                response.place(), Sayings.of("class.broke"), Sayings.of("class.report")));
      } catch (OutOfMemoryError e) {
        set.add(Room.tooLarge(response.place()));
      }
      line(out, step("done", i + 1, answers.size()));
    }
    ObjectNode end = Desk.JSON.createObjectNode();
    problems(end, set.problems());
    if (read == 0) {
      end.put("why", Sayings.of("class.none"));
    } else {
      classes.put(id, set);
      end.put("id", id);
    }
    return end.put("read", read);
  }

  private static void line(OutputStream out, ObjectNode node) throws IOException {
    out.write(LocalServer.bytes(node + "\n"));
    out.flush();
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

  /** Removes what was dropped and not read. */
  void close() {
    new LinkedHashMap<>(waiting).values().forEach(DroppedClass::delete);
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

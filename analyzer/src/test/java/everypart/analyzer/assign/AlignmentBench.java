package everypart.analyzer.assign;

import everypart.analyzer.judge.LearnedJudge;
import everypart.analyzer.meaning.SentenceMeaning;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.prompt.PromptYaml;
import everypart.analyzer.study.agreement.Segmentation;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.ServiceLoader;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.IntFunction;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * Scores the assignment of text to parts on responses with known gaps, and searches settings.
 *
 * <p>Run it with the folders of coded composites. {@code --show} lists what is placed wrong. {@code
 * --search N} tries N changes of settings, judged on one half of the prompts, and shows the other
 * half as a check. {@code --sweep "cover=.2,.4;tie=0"} tries values one at a time; a group that
 * begins with "!" changes the settings for those after it. {@code --join ", and "} makes one
 * sentence of two neighbours that answer two parts, in responses without line breaks. {@code
 * --meaning}, with the jar of the meaning stage on the class path, places with it. Students'
 * prompts are halved by their source, since prompts of one source share questions.
 */
public final class AlignmentBench {
  private record Case(
      String id,
      Prompt prompt,
      Text text,
      String layout,
      String source,
      String half,
      Set<String> answered,
      List<Gold> gold,
      int fold) {}

  private record Gold(String part, int start, int end) {}

  private record Score(
      int hit,
      int falseAlarm,
      int missed,
      int right,
      int all,
      int cuts,
      double pk,
      double windowDiff) {
    double f1() {
      return hit == 0 ? 0 : 2.0 * hit / (2.0 * hit + falseAlarm + missed);
    }

    double text() {
      return all == 0 ? 0 : (double) right / all;
    }

    Score plus(Score o) {
      return new Score(
          hit + o.hit,
          falseAlarm + o.falseAlarm,
          missed + o.missed,
          right + o.right,
          all + o.all,
          cuts + o.cuts,
          pk + o.pk,
          windowDiff + o.windowDiff);
    }
  }

  private final Lexicon lexicon = Lexicon.bundled();
  private final TextReader texts = new TextReader(lexicon.forms()::stem);

  private boolean show;

  private Optional<String> joiner = Optional.empty();
  private Optional<SentenceMeaning> meaning = Optional.empty();
  private Optional<Bearing> bearing = Optional.empty();

  private AlignmentBench() {}

  /** Keeps vectors, so that a sweep asks the model once a sentence. */
  private static final class Remembered implements SentenceMeaning {
    private final SentenceMeaning model;
    private final Map<String, float[]> known = new HashMap<>();

    Remembered(ServiceLoader<SentenceMeaning> models) {
      this.model = models.findFirst().orElseThrow();
    }

    @Override
    public float[] vector(String sentence) {
      return known.computeIfAbsent(sentence, model::vector);
    }
  }

  /** Keeps what it was told, so that a sweep asks once a response. */
  private static final class Asked implements Bearing {
    private final Bearing judge;
    private final Map<String, double[][]> known = new HashMap<>();

    Asked(Bearing judge) {
      this.judge = judge;
    }

    @Override
    public boolean isSure() {
      return judge.isSure();
    }

    @Override
    public double[][] of(Prompt prompt, List<String> pieces) {
      return known.computeIfAbsent(prompt.id() + pieces, key -> judge.of(prompt, pieces));
    }
  }

  private AlignmentSettings settings() {
    return bearing.map(AlignmentSettings::beside).orElseGet(AlignmentSettings::byWords);
  }

  private Bearing judge(String name) {
    return new LearnedJudge(
            lexicon,
            texts,
            name.equals("reader")
                ? ServiceLoader.load(everypart.analyzer.judge.Reader.class).findFirst()
                : Optional.empty())
        .bearing()
        .orElseThrow();
  }

  private static void show(Case c, Assignment assignment) {
    StringBuilder out = new StringBuilder();
    boolean wrong = false;
    for (Stretch stretch : assignment.stretches()) {
      String want = "-";
      for (Gold gold : c.gold()) {
        if (gold.start() < stretch.sentence().end() && gold.end() > stretch.sentence().start()) {
          want = want.equals("-") ? gold.part() : want + "+" + gold.part();
        }
      }
      String got = stretch.part().orElse("-");
      wrong |= !got.equals(want);
      out.append(got.equals(want) ? "    " : "  ! ")
          .append(want)
          .append(" > ")
          .append(got)
          .append(" ")
          .append(stretch.sentence().span().of(c.text().raw()))
          .append('\n');
    }
    if (wrong) {
      System.out.println("== " + c.id() + " " + c.layout() + " " + c.source());
      c.prompt()
          .parts()
          .forEach(
              part ->
                  System.out.println(
                      "  "
                          + part.label()
                          + ") "
                          + part.text()
                          + " || "
                          + part.modelAnswer().orElse("")));
      System.out.print(out);
    }
  }

  /** Runs the bench. */
  public static void main(String[] args) throws IOException {
    AlignmentBench bench = new AlignmentBench();
    int search = 0;
    String sweep = "";
    List<Case> cases = new ArrayList<>();
    for (int i = 0; i < args.length; i++) {
      if (args[i].equals("--show")) {
        bench.show = true;
      } else if (args[i].equals("--meaning")) {
        bench.meaning = Optional.of(new Remembered(ServiceLoader.load(SentenceMeaning.class)));
      } else if (args[i].equals("--bearing")) {
        bench.bearing = Optional.of(new Asked(bench.judge(args[++i])));
      } else if (args[i].equals("--join")) {
        bench.joiner = Optional.of(args[++i]);
      } else if (args[i].equals("--sweep")) {
        sweep = args[++i];
      } else if (args[i].equals("--search")) {
        search = Integer.parseInt(args[++i]);
      } else {
        cases.addAll(bench.load(Path.of(args[i])));
      }
    }
    AlignmentSettings best = bench.settings();
    if (!sweep.isEmpty()) {
      bench.sweep(cases, sweep);
      return;
    }
    if (search > 0) {
      best = bench.search(cases, best, search);
      System.out.println(best);
    }
    bench.print(bench.score(cases, best));
  }

  private static double[] values(AlignmentSettings settings) {
    return Arrays.stream(AlignmentSettings.class.getRecordComponents())
        .mapToDouble(
            component -> {
              try {
                return (double) component.getAccessor().invoke(settings);
              } catch (ReflectiveOperationException e) {
                throw new IllegalStateException(e);
              }
            })
        .toArray();
  }

  private static AlignmentSettings settings(double[] values) {
    Class<?>[] types = new Class<?>[values.length];
    Arrays.fill(types, double.class);
    try {
      return AlignmentSettings.class
          .getDeclaredConstructor(types)
          .newInstance(Arrays.stream(values).boxed().toArray());
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(e);
    }
  }

  private void sweep(List<Case> cases, String what) {
    List<Case> un = cases.stream().filter(c -> !c.layout().equals("labelled")).toList();
    List<String> names =
        Arrays.stream(AlignmentSettings.class.getRecordComponents())
            .map(component -> component.getName())
            .toList();
    double[] base = values(settings());
    for (String one : what.split(";", -1)) {
      if (one.startsWith("!")) {
        for (String kv : one.substring(1).split(",", -1)) {
          base[names.indexOf(kv.split("=", -1)[0])] = Double.parseDouble(kv.split("=", -1)[1]);
        }
        line(un, base, "BASE " + one);
        continue;
      }
      String name = one.split("=", -1)[0];
      for (String value : one.split("=", -1)[1].split(",", -1)) {
        double[] v = base.clone();
        v[names.indexOf(name)] = Double.parseDouble(value);
        line(un, v, name + "=" + value);
      }
    }
  }

  private void line(List<Case> un, double[] v, String title) {
    Map<String, Score> m = score(un, settings(v));
    StringBuilder b = new StringBuilder();
    double g0 = 0;
    int n = 0;
    for (String half : List.of("textbook", "students", "model")) {
      for (String layout : List.of("paragraphs", "running", "shuffled")) {
        Score s = m.get(half + " " + layout);
        if (s != null) {
          b.append(String.format(Locale.ROOT, " %.3f/%.3f", s.f1(), s.text()));
          g0 += (2 * s.f1() + s.text()) / 3;
          n++;
        }
      }
      b.append(" |");
    }
    System.out.printf(
        Locale.ROOT,
        "%-28s %.4f f0 %.4f f1 %.4f %s%n",
        title,
        g0 / n,
        goal(un.stream().filter(c -> c.fold() == 0).toList(), settings(v)),
        goal(un.stream().filter(c -> c.fold() == 1).toList(), settings(v)),
        b);
  }

  private AlignmentSettings search(List<Case> cases, AlignmentSettings start, int rounds) {
    List<Case> even =
        cases.stream().filter(c -> c.fold() == 0 && !c.layout().equals("labelled")).toList();
    List<Case> odd =
        cases.stream().filter(c -> c.fold() == 1 && !c.layout().equals("labelled")).toList();
    Random random = new Random(7);
    AlignmentSettings best = start;
    double top = goal(even, best);
    System.out.printf(Locale.ROOT, "start %.4f check %.4f%n", top, goal(odd, best));
    for (int i = 0; i < rounds; i++) {
      double[] v = values(best);
      int changes = 1 + random.nextInt(2);
      for (int c = 0; c < changes; c++) {
        int k = random.nextInt(v.length);
        v[k] = v[k] + random.nextGaussian() * Math.max(0.1, Math.abs(v[k]) * 0.4);
        if (!AlignmentSettings.class
            .getRecordComponents()[k]
            .getName()
            .equals("stayOverBreak")) { // the one that may be below 0
          v[k] = Math.max(0, v[k]);
        }
      }
      AlignmentSettings next = settings(v);
      double score = goal(even, next);
      if (score > top + 1e-4) {
        top = score;
        best = next;
        System.out.printf(Locale.ROOT, "%d even %.4f odd %.4f%n", i, top, goal(odd, best));
      }
    }
    return best;
  }

  private double goal(List<Case> cases, AlignmentSettings settings) {
    double sum = 0;
    int n = 0;
    for (Map.Entry<String, Score> entry : score(cases, settings).entrySet()) {
      if (entry.getKey().contains(" ") && !entry.getKey().contains("labelled")) {
        sum += entry.getValue().f1() * 2 + entry.getValue().text();
        n += 3;
      }
    }
    return sum / n;
  }

  private Map<String, Score> score(List<Case> cases, AlignmentSettings settings) {
    PartAssigner assigner = new PartAssigner(lexicon, texts, settings, meaning, bearing);
    Map<String, Score> scores = new TreeMap<>();
    for (Case c : cases) {
      Assignment assignment = assigner.assign(c.prompt(), c.text());
      Set<String> got = new HashSet<>();
      assignment.stretches().forEach(stretch -> stretch.part().ifPresent(got::add));
      int hit = 0;
      int falseAlarm = 0;
      int missed = 0;
      for (var part : c.prompt().parts()) {
        boolean gap = !c.answered().contains(part.label());
        boolean said = !got.contains(part.label());
        hit += gap && said ? 1 : 0;
        falseAlarm += !gap && said ? 1 : 0;
        missed += gap && !said ? 1 : 0;
      }
      if (show && !c.layout().equals("labelled")) {
        show(c, assignment);
      }
      int right = 0;
      int all = 0;
      for (Gold gold : c.gold()) {
        for (Stretch stretch : assignment.stretches()) {
          int from = Math.max(gold.start(), stretch.sentence().start());
          int to = Math.min(gold.end(), stretch.sentence().end());
          if (to > from) {
            all += to - from;
            right += stretch.part().filter(gold.part()::equals).isPresent() ? to - from : 0;
          }
        }
      }
      Optional<Segmentation> reference = segments(c, place -> goldAt(c, place));
      Optional<Segmentation> found = segments(c, place -> foundAt(assignment, place));
      int width = reference.map(Segmentation::usualWidth).orElse(1);
      Score score =
          new Score(
              hit,
              falseAlarm,
              missed,
              right,
              all,
              reference.isPresent() ? 1 : 0,
              reference.map(r -> r.pk(found.orElseThrow(), width)).orElse(0.0),
              reference.map(r -> r.windowDiff(found.orElseThrow(), width)).orElse(0.0));
      scores.merge(c.half() + " " + c.layout(), score, Score::plus);
      scores.merge(c.layout(), score, Score::plus);
      if (!c.layout().equals("labelled")) {
        scores.merge("unlabelled", score, Score::plus);
        scores.merge("unlabelled-fold-" + c.fold(), score, Score::plus);
        scores.merge("unlabelled-" + c.source(), score, Score::plus);
      }
      scores.merge("all", score, Score::plus);
    }
    return scores;
  }

  /** Returns where words of a response go from one part to another; empty where it has none. */
  private static Optional<Segmentation> segments(Case c, IntFunction<String> partAt) {
    List<String> parts = new ArrayList<>();
    c.text()
        .sentences()
        .forEach(s -> s.tokens().forEach(token -> parts.add(partAt.apply(token.start()))));
    if (parts.isEmpty()) {
      return Optional.empty();
    }
    BitSet ends = new BitSet();
    for (int i = 0; i < parts.size(); i++) {
      ends.set(i, i + 1 == parts.size() || !parts.get(i).equals(parts.get(i + 1)));
    }
    return Optional.of(new Segmentation(parts.size(), ends));
  }

  private static String goldAt(Case c, int place) {
    return c.gold().stream()
        .filter(gold -> gold.start() <= place && place < gold.end())
        .map(Gold::part)
        .findFirst()
        .orElse("");
  }

  private static String foundAt(Assignment assignment, int place) {
    return assignment.stretches().stream()
        .filter(s -> s.sentence().start() <= place && place < s.sentence().end())
        .flatMap(s -> s.part().stream())
        .findFirst()
        .orElse("");
  }

  private void print(Map<String, Score> scores) {
    scores.forEach(
        (name, s) ->
            System.out.printf(
                Locale.ROOT,
                "%-28s gap f1 %.3f precision %.3f recall %.3f text %.3f pk %.3f windowdiff %.3f%n",
                name,
                s.f1(),
                s.hit() / (double) Math.max(1, s.hit() + s.falseAlarm()),
                s.hit() / (double) Math.max(1, s.hit() + s.missed()),
                s.text(),
                s.pk() / Math.max(1, s.cuts()),
                s.windowDiff() / Math.max(1, s.cuts())));
  }

  private List<Case> load(Path folder) throws IOException {
    PromptReader reader = new PromptReader(lexicon);
    PromptYaml yaml = new PromptYaml(reader);
    Map<String, Prompt> prompts = new HashMap<>();
    try (Stream<Path> files = Files.list(folder.resolve("prompts"))) {
      for (Path file : files.toList()) {
        String name = file.getFileName().toString();
        String id = name.substring(0, name.lastIndexOf('.'));
        String text = Files.readString(file);
        prompts.put(id, name.endsWith(".yaml") ? yaml.read(id, text) : reader.read(id, text));
      }
    }
    Map<String, Set<String>> answered = new HashMap<>();
    for (CSVRecord row : rows(folder.resolve("parts.csv"))) {
      Set<String> set = answered.computeIfAbsent(row.get("response_id"), key -> new HashSet<>());
      if (row.get("answered").equals("1")) {
        set.add(row.get("part"));
      }
    }
    Map<String, List<Gold>> gold = new HashMap<>();
    for (CSVRecord row : rows(folder.resolve("spans.csv"))) {
      gold.computeIfAbsent(row.get("response_id"), key -> new ArrayList<>())
          .add(
              new Gold(
                  row.get("part"),
                  Integer.parseInt(row.get("start")),
                  Integer.parseInt(row.get("end"))));
    }
    List<Case> cases = new ArrayList<>();
    List<CSVRecord> responses = rows(folder.resolve("responses.csv"));
    List<String> sources =
        responses.stream().map(row -> row.get("source")).distinct().sorted().toList();
    for (CSVRecord row : responses) {
      String id = row.get("response_id");
      String promptId = row.get("prompt_id");
      if (!answered.containsKey(id)) {
        continue;
      }
      String source = row.get("source");
      int fold =
          source.startsWith("students")
              ? sources.indexOf(source) % 2
              : Integer.parseInt("0" + promptId.replaceAll("\\D", "")) % 2;
      List<Gold> spans = new ArrayList<>(gold.getOrDefault(id, List.of()));
      spans.sort(Comparator.comparingInt(Gold::start));
      String text = row.get("text");
      if (joiner.isPresent()) {
        if (!row.get("layout").equals("running") || spans.size() < 2) {
          continue;
        }
        text = join(text, spans, joiner.get());
      }
      cases.add(
          new Case(
              id,
              Objects.requireNonNull(prompts.get(promptId), promptId),
              texts.read(text),
              row.get("layout"),
              source,
              folder.toString().endsWith("model")
                  ? "model"
                  : source.startsWith("students") ? "students" : "textbook",
              answered.getOrDefault(id, Set.of()),
              spans,
              fold));
    }
    return cases;
  }

  /** Joins the answers to different parts into one sentence and moves their places accordingly. */
  private static String join(String text, List<Gold> spans, String joiner) {
    StringBuilder joined = new StringBuilder();
    for (int i = 0; i < spans.size(); i++) {
      Gold span = spans.get(i);
      String answer = text.substring(span.start(), span.end());
      if (i > 0) {
        joined.append(joiner);
        boolean proper = answer.length() < 2 || !Character.isLowerCase(answer.charAt(1));
        answer = proper ? answer : Character.toLowerCase(answer.charAt(0)) + answer.substring(1);
      }
      if (i + 1 < spans.size()) {
        answer = answer.replaceFirst("[.!?]+$", "");
      }
      int start = joined.length();
      spans.set(i, new Gold(span.part(), start, start + answer.length()));
      joined.append(answer);
    }
    return joined.toString();
  }

  private static List<CSVRecord> rows(Path file) throws IOException {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (Reader in = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
      return format.parse(in).getRecords();
    }
  }
}

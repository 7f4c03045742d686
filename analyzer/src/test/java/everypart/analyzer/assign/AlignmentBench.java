package everypart.analyzer.assign;

import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.PromptReader;
import everypart.analyzer.prompt.PromptYaml;
import everypart.analyzer.text.Text;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.Lexicon;
import java.io.IOException;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/**
 * Scores the assignment of text to parts on responses with known gaps, and searches settings.
 *
 * <p>Run it with the folders of coded composites; {@code --search N} tries N changes of settings,
 * judged on the prompts with even numbers, and shows the others as a check.
 */
public final class AlignmentBench {
  private record Case(
      String id,
      Prompt prompt,
      Text text,
      String layout,
      String half,
      Set<String> answered,
      List<Gold> gold,
      int fold) {}

  private record Gold(String part, int start, int end) {}

  private record Score(int hit, int falseAlarm, int missed, int right, int all) {
    double f1() {
      return hit == 0 ? 0 : 2.0 * hit / (2.0 * hit + falseAlarm + missed);
    }

    double text() {
      return all == 0 ? 0 : (double) right / all;
    }

    Score plus(Score o) {
      return new Score(
          hit + o.hit, falseAlarm + o.falseAlarm, missed + o.missed, right + o.right, all + o.all);
    }
  }

  private final Lexicon lexicon = Lexicon.bundled();
  private final TextReader texts = new TextReader(lexicon.forms()::stem);

  private AlignmentBench() {}

  /** Runs the bench. */
  public static void main(String[] args) throws IOException {
    AlignmentBench bench = new AlignmentBench();
    int search = 0;
    List<Case> cases = new ArrayList<>();
    for (int i = 0; i < args.length; i++) {
      if (args[i].equals("--search")) {
        search = Integer.parseInt(args[++i]);
      } else {
        cases.addAll(bench.load(Path.of(args[i])));
      }
    }
    AlignmentSettings best = AlignmentSettings.standard();
    if (search > 0) {
      best = bench.search(cases, best, search);
      System.out.println(best);
    }
    bench.print(bench.score(cases, best));
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
      double[] v = best.values();
      int changes = 1 + random.nextInt(2);
      for (int c = 0; c < changes; c++) {
        int k = random.nextInt(v.length);
        v[k] = v[k] + random.nextGaussian() * Math.max(0.1, Math.abs(v[k]) * 0.4);
        if (k < 5) {
          v[k] = Math.max(0, v[k]);
        }
      }
      AlignmentSettings next = AlignmentSettings.of(v);
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
      if (entry.getKey().contains(" ")) {
        sum += entry.getValue().f1() * 2 + entry.getValue().text();
        n += 3;
      }
    }
    return sum / n;
  }

  private Map<String, Score> score(List<Case> cases, AlignmentSettings settings) {
    PartAssigner assigner = new PartAssigner(lexicon, texts, settings);
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
      Score score = new Score(hit, falseAlarm, missed, right, all);
      scores.merge(c.half() + " " + c.layout(), score, Score::plus);
      scores.merge(c.layout(), score, Score::plus);
      scores.merge("all", score, Score::plus);
    }
    return scores;
  }

  private void print(Map<String, Score> scores) {
    scores.forEach(
        (name, s) ->
            System.out.printf(
                Locale.ROOT,
                "%-22s gap f1 %.3f precision %.3f recall %.3f text %.3f%n",
                name,
                s.f1(),
                s.hit() / (double) Math.max(1, s.hit() + s.falseAlarm()),
                s.hit() / (double) Math.max(1, s.hit() + s.missed()),
                s.text()));
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
    for (CSVRecord row : rows(folder.resolve("responses.csv"))) {
      String id = row.get("response_id");
      String promptId = row.get("prompt_id");
      if (!answered.containsKey(id)) {
        continue;
      }
      int fold = Integer.parseInt(promptId.replaceAll("\\D", "")) % 2;
      cases.add(
          new Case(
              id,
              Objects.requireNonNull(prompts.get(promptId), promptId),
              texts.read(row.get("text")),
              row.get("layout"),
              row.get("source").startsWith("students") ? "students" : "textbook",
              answered.getOrDefault(id, Set.of()),
              gold.getOrDefault(id, List.of()),
              fold));
    }
    return cases;
  }

  private static List<CSVRecord> rows(Path file) throws IOException {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (Reader in = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
      return format.parse(in).getRecords();
    }
  }
}

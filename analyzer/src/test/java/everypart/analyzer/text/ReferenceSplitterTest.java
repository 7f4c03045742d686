package everypart.analyzer.text;

import static org.junit.jupiter.api.Assertions.assertTrue;

import edu.stanford.nlp.ling.CoreAnnotations;
import edu.stanford.nlp.ling.CoreLabel;
import edu.stanford.nlp.pipeline.Annotation;
import edu.stanford.nlp.pipeline.StanfordCoreNLP;
import edu.stanford.nlp.util.CoreMap;
import everypart.lexicon.WordForms;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Properties;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;

/**
 * Compares sentences and tokens on the demo data with those of a reference: the tokenizer and
 * sentence splitter of Stanford CoreNLP (Manning, Surdeanu, Bauer, Finkel, Bethard, McClosky 2014),
 * version 4.5.10, which need no model.
 */
class ReferenceSplitterTest {
  // Measured on 2026-11-25: F1 of sentences 0.918, of tokens 0.990. The floors lie a little under.
  // Where the two differ, the reference cuts list numbers off and ends a sentence at every line
  // break.
  private static final double SENTENCE_FLOOR = 0.90;

  private static final double TOKEN_FLOOR = 0.98;

  @Test
  void agreesWithTheReferenceOnNearlyAllSentencesAndTokensOfTheDemoData() throws IOException {
    Properties settings = new Properties();
    settings.setProperty("annotators", "tokenize,ssplit");
    settings.setProperty("ssplit.newlineIsSentenceBreak", "always");
    StanfordCoreNLP reference = new StanfordCoreNLP(settings);
    TextReader reader = new TextReader(new WordForms()::stem);
    Agreement sentences = new Agreement();
    Agreement tokens = new Agreement();
    List<CSVRecord> rows = rows();
    assertTrue(rows.size() >= 60, () -> rows.size() + " responses");
    for (CSVRecord row : rows) {
      String raw = row.get("text");
      Annotation annotation = new Annotation(raw);
      reference.annotate(annotation);
      Set<Span> theirs = new HashSet<>();
      for (CoreMap sentence : annotation.get(CoreAnnotations.SentencesAnnotation.class)) {
        theirs.add(
            new Span(
                sentence.get(CoreAnnotations.CharacterOffsetBeginAnnotation.class),
                sentence.get(CoreAnnotations.CharacterOffsetEndAnnotation.class)));
      }
      Set<Span> theirTokens = new HashSet<>();
      for (CoreLabel token : annotation.get(CoreAnnotations.TokensAnnotation.class)) {
        theirTokens.add(new Span(token.beginPosition(), token.endPosition()));
      }
      Set<Span> ours = new HashSet<>();
      Set<Span> ourTokens = new HashSet<>();
      for (Sentence sentence : reader.read(raw).sentences()) {
        ours.add(sentence.span());
        sentence.tokens().forEach(token -> ourTokens.add(token.span()));
      }
      sentences.add(ours, theirs);
      tokens.add(ourTokens, theirTokens);
    }
    assertTrue(
        sentences.f1() >= SENTENCE_FLOOR && tokens.f1() >= TOKEN_FLOOR,
        () -> "F1 of sentences " + sentences.f1() + ", of tokens " + tokens.f1());
  }

  private static List<CSVRecord> rows() throws IOException {
    Path file = Path.of("..", "demo-data", "study.csv");
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (CSVParser parser =
        CSVParser.parse(Files.newBufferedReader(file, StandardCharsets.UTF_8), format)) {
      return parser.getRecords();
    }
  }

  /** Counts, pooled over texts; the ratio comes last. */
  private static final class Agreement {
    private int both;
    private int ours;
    private int theirs;

    void add(Set<Span> ourSpans, Set<Span> theirSpans) {
      ours += ourSpans.size();
      theirs += theirSpans.size();
      both += (int) ourSpans.stream().filter(theirSpans::contains).count();
    }

    double f1() {
      return 2.0 * both / (ours + theirs);
    }
  }
}

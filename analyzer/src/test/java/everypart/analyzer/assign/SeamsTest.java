package everypart.analyzer.assign;

import static org.junit.jupiter.api.Assertions.assertEquals;

import everypart.analyzer.text.Sentence;
import everypart.analyzer.text.TextReader;
import everypart.lexicon.Lexicon;
import java.util.stream.Collectors;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The seams are marked with a stroke. Where clauses meet is common practice, no source. */
class SeamsTest {
  private static final Lexicon LEXICON = Lexicon.bundled();

  private final Seams seams = new Seams(LEXICON);

  @ParameterizedTest
  @ValueSource(
      strings = {
        "The wick is too long,|the keeper wipes the glass.",
        "The wick is too long|and the keeper wipes the glass.",
        "The oil runs low;|ships would run aground.",
        "The oil runs low|The keeper wipes the glass",
        "The flame flickers|because the wind blows.",
        "Wind and rain.",
        "The keeper sees the harbour.",
      })
  void findsWhereClausesMeet(String marked) {
    String text = marked.replace("|", " ");
    Sentence sentence = new TextReader(LEXICON.forms()::stem).read(text).sentences().get(0);
    assertEquals(
        marked,
        Unit.clauses(sentence, 0, seams.in(text, sentence)).stream()
            .map(unit -> unit.words().span().of(text))
            .collect(Collectors.joining("|")));
  }
}

package everypart.lexicon;

import java.util.List;
import java.util.stream.Collectors;

/** A sentence for tests, split at spaces and marks. */
final class Words implements WordSequence {
  private static final WordForms FORMS = new WordForms();

  private final List<String> words;

  Words(String sentence) {
    this.words = NameSplitter.split(sentence);
  }

  @Override
  public int size() {
    return words.size();
  }

  @Override
  public String form(int i) {
    return words.get(i);
  }

  @Override
  public String stem(int i) {
    return Character.isLetter(form(i).charAt(0)) ? FORMS.stem(form(i)) : form(i);
  }

  String text(TokenRange range) {
    return words.subList(range.from(), range.to()).stream().collect(Collectors.joining(" "));
  }

  static String plain(String text) {
    return String.join(" ", NameSplitter.split(text));
  }
}

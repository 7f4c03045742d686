package everypart.meaning;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.InputStream;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Cuts a sentence into the word pieces that the model was trained on, the longest first, and gives
 * their numbers.
 *
 * <p>This is the uncased tokenization of Devlin et al. 2019, "BERT", as the tokenizer file that
 * comes with the model describes it. It is written out here because the library that reads such
 * files is native code of 18 MB, which unpacks itself into the user's home; the tests compare with
 * that library.
 */
final class WordPieces {
  /** A longer word counts as unknown, as the tokenizer file says. */
  private static final int LONGEST_WORD = 100;

  private final Map<String, Integer> pieces;
  private final int unknown;
  private final int start;
  private final int end;
  private final int most;

  private WordPieces(Map<String, Integer> pieces, int most) {
    this.pieces = pieces;
    this.unknown = number("[UNK]");
    this.start = number("[CLS]");
    this.end = number("[SEP]");
    this.most = most;
  }

  private int number(String piece) {
    Integer number = pieces.get(piece);
    if (number == null) {
      throw new IllegalArgumentException("the vocabulary lacks " + piece);
    }
    return number;
  }

  /**
   * Reads a tokenizer file.
   *
   * @throws IOException when it cannot be read, or is none
   */
  static WordPieces read(InputStream file) throws IOException {
    Map<String, Integer> pieces = new HashMap<>(1 << 16);
    int most = 0;
    // Piece by piece: a tree of the whole file would take longer than all else that is opened.
    try (JsonParser json = new JsonFactory().createParser(file)) {
      json.nextToken();
      for (String part = json.nextFieldName(); part != null; part = json.nextFieldName()) {
        json.nextToken();
        boolean model = part.equals("model");
        if (!model && !part.equals("truncation")) {
          json.skipChildren();
          continue;
        }
        while (json.nextToken() == JsonToken.FIELD_NAME) {
          String name = json.currentName();
          json.nextToken();
          if (model && name.equals("vocab")) {
            while (json.nextToken() == JsonToken.FIELD_NAME) {
              pieces.put(json.currentName(), json.nextIntValue(0));
            }
          } else if (!model && name.equals("max_length")) {
            most = json.getIntValue();
          } else {
            json.skipChildren();
          }
        }
      }
    }
    if (pieces.isEmpty() || most < 2) {
      throw new IOException("the tokenizer file holds no vocabulary or no greatest length");
    }
    return new WordPieces(pieces, most);
  }

  /** Returns the numbers of a text's pieces, without those that mark its beginning and end. */
  List<Integer> bare(String text) {
    List<Integer> numbers = new ArrayList<>();
    for (String word : words(text)) {
      cut(word, numbers);
    }
    return numbers;
  }

  int start() {
    return start;
  }

  int end() {
    return end;
  }

  /** Returns the numbers of a sentence's pieces; what is beyond the greatest length is left out. */
  long[] of(String sentence) {
    List<Integer> numbers = new ArrayList<>();
    numbers.add(start);
    for (String word : words(sentence)) {
      if (numbers.size() >= most - 1) {
        break;
      }
      cut(word, numbers);
    }
    while (numbers.size() > most - 1) {
      numbers.remove(numbers.size() - 1);
    }
    numbers.add(end);
    return numbers.stream().mapToLong(Integer::longValue).toArray();
  }

  private void cut(String word, List<Integer> numbers) {
    if (word.codePointCount(0, word.length()) > LONGEST_WORD) {
      numbers.add(unknown);
      return;
    }
    List<Integer> found = new ArrayList<>();
    int from = 0;
    while (from < word.length()) {
      int to = word.length();
      @Nullable Integer number = null;
      while (to > from && number == null) {
        number = pieces.get((from > 0 ? "##" : "") + word.substring(from, to));
        if (number == null) {
          to = word.offsetByCodePoints(to, -1);
        }
      }
      if (number == null) {
        numbers.add(unknown);
        return;
      }
      found.add(number);
      from = to;
    }
    numbers.addAll(found);
  }

  /** Splits at white space and around each punctuation mark, in lower case without accents. */
  private static List<String> words(String sentence) {
    List<String> words = new ArrayList<>();
    StringBuilder word = new StringBuilder();
    String plain = Normalizer.normalize(sentence, Normalizer.Form.NFD).toLowerCase(Locale.ROOT);
    plain
        .codePoints()
        .forEach(
            c -> {
              if (isSpace(c)) {
                flush(word, words);
              } else if (isMark(c) || Character.isIdeographic(c)) {
                flush(word, words);
                words.add(Character.toString(c));
              } else if (!isLeftOut(c)) {
                word.appendCodePoint(c);
              }
            });
    flush(word, words);
    return words;
  }

  private static void flush(StringBuilder word, List<String> words) {
    if (!word.isEmpty()) {
      words.add(word.toString());
      word.setLength(0);
    }
  }

  private static boolean isSpace(int c) {
    return c == '\t' || c == '\n' || c == '\r' || Character.isSpaceChar(c);
  }

  private static boolean isLeftOut(int c) {
    return switch (Character.getType(c)) {
      case Character.NON_SPACING_MARK,
          Character.CONTROL,
          Character.FORMAT,
          Character.PRIVATE_USE,
          Character.SURROGATE,
          Character.UNASSIGNED ->
          true;
      default -> c == '\ufffd';
    };
  }

  private static boolean isMark(int c) {
    if (c < 128) {
      return c > ' ' && c < 127 && !Character.isLetterOrDigit(c);
    }
    return switch (Character.getType(c)) {
      case Character.CONNECTOR_PUNCTUATION,
          Character.DASH_PUNCTUATION,
          Character.START_PUNCTUATION,
          Character.END_PUNCTUATION,
          Character.INITIAL_QUOTE_PUNCTUATION,
          Character.FINAL_QUOTE_PUNCTUATION,
          Character.OTHER_PUNCTUATION ->
          true;
      default -> false;
    };
  }
}

package everypart.lexicon;

import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Iterator;
import java.util.List;
import org.apache.lucene.analysis.TokenStream;
import org.apache.lucene.analysis.core.WhitespaceAnalyzer;
import org.apache.lucene.analysis.tokenattributes.CharTermAttribute;
import org.apache.lucene.analysis.tokenattributes.PositionIncrementAttribute;
import org.apache.lucene.document.Document;
import org.apache.lucene.document.Field;
import org.apache.lucene.document.FieldType;
import org.apache.lucene.document.StoredField;
import org.apache.lucene.index.DirectoryReader;
import org.apache.lucene.index.IndexOptions;
import org.apache.lucene.index.IndexWriter;
import org.apache.lucene.index.IndexWriterConfig;
import org.apache.lucene.index.MultiTerms;
import org.apache.lucene.index.PostingsEnum;
import org.apache.lucene.index.Term;
import org.apache.lucene.index.Terms;
import org.apache.lucene.index.TermsEnum;
import org.apache.lucene.store.ByteBuffersDirectory;
import org.apache.lucene.util.BytesRef;
import org.jspecify.annotations.Nullable;

/**
 * How often each phrase occurs in a set of responses, counted by a Lucene index in memory.
 *
 * <p>A response is a document. Its field of all phrases serves to count; its field of candidates
 * also tells in which sentence each stands. The sentences are kept beside them, zipped by Lucene,
 * so that one can be shown. Nothing is ever written to a disk, since answers are personal data.
 */
final class PhraseIndex implements Closeable {
  private static final String ALL = "all";
  private static final String CANDIDATES = "candidates";
  private static final String TEXT = "text";
  private static final String FORMS = "forms";

  /** A longer one is no phrase that a person would enter, and Lucene bounds the length of terms. */
  private static final int MOST_LETTERS = 200;

  private static final FieldType COUNTED = type(IndexOptions.DOCS_AND_FREQS);
  private static final FieldType PLACED = type(IndexOptions.DOCS_AND_FREQS_AND_POSITIONS);

  private final ByteBuffersDirectory memory = new ByteBuffersDirectory();
  private final IndexWriter writer;
  private @Nullable DirectoryReader reader;

  /**
   * A phrase in a response.
   *
   * @param key the stems of its words, with a space between
   * @param sentence the number of its sentence in the response, counted from 0
   */
  record Phrase(String key, int sentence) {}

  /**
   * A sentence.
   *
   * @param text the sentence as written
   * @param forms its tokens in lower case, with a space between
   */
  record Sentence(String text, String forms) {}

  /** Is told of each candidate in turn. */
  interface Visitor {
    /** Takes a candidate's key, how often it occurs, and in how many responses. */
    void take(String key, long times, int responses);
  }

  PhraseIndex() {
    try {
      this.writer = new IndexWriter(memory, new IndexWriterConfig(new WhitespaceAnalyzer()));
    } catch (IOException e) {
      throw inMemory(e);
    }
  }

  private static UncheckedIOException inMemory(IOException e) {
    return new UncheckedIOException("the index is held in memory; no file is touched", e);
  }

  private static FieldType type(IndexOptions options) {
    FieldType type = new FieldType();
    type.setTokenized(true);
    type.setOmitNorms(true);
    type.setIndexOptions(options);
    type.freeze();
    return type;
  }

  /** Adds a response; phrases stand in the order of their sentences. */
  void add(List<Phrase> all, List<Phrase> candidates, List<Sentence> sentences) {
    Document document = new Document();
    document.add(new Field(ALL, new Given(all), COUNTED));
    document.add(new Field(CANDIDATES, new Given(candidates), PLACED));
    for (Sentence sentence : sentences) {
      document.add(new StoredField(TEXT, sentence.text()));
      document.add(new StoredField(FORMS, sentence.forms()));
    }
    try {
      writer.addDocument(document);
    } catch (IOException e) {
      throw inMemory(e);
    }
  }

  private DirectoryReader reader() throws IOException {
    if (reader == null) {
      reader = DirectoryReader.open(writer);
    }
    return reader;
  }

  /** Returns how often a phrase occurs, as a candidate or not. */
  long times(String key) {
    try {
      return reader().totalTermFreq(new Term(ALL, key));
    } catch (IOException e) {
      throw inMemory(e);
    }
  }

  /** Hands over all candidates, in the order of their keys. Nothing may be added afterwards. */
  void forEachCandidate(Visitor visitor) {
    try {
      Terms terms = MultiTerms.getTerms(reader(), CANDIDATES);
      if (terms == null) {
        return;
      }
      TermsEnum each = terms.iterator();
      for (BytesRef term = each.next(); term != null; term = each.next()) {
        visitor.take(term.utf8ToString(), each.totalTermFreq(), each.docFreq());
      }
    } catch (IOException e) {
      throw inMemory(e);
    }
  }

  /** Returns the first sentence that has a candidate. */
  Sentence first(String key) {
    try {
      PostingsEnum places =
          MultiTerms.getTermPostingsEnum(
              reader(), CANDIDATES, new BytesRef(key), PostingsEnum.POSITIONS);
      if (places == null || places.nextDoc() == PostingsEnum.NO_MORE_DOCS) {
        throw new IllegalArgumentException("no candidate of the set: " + key);
      }
      int sentence = places.nextPosition();
      Document document = reader().storedFields().document(places.docID());
      return new Sentence(document.getValues(TEXT)[sentence], document.getValues(FORMS)[sentence]);
    } catch (IOException e) {
      throw inMemory(e);
    }
  }

  @Override
  public void close() {
    try {
      if (reader != null) {
        reader.close();
      }
      writer.close();
      memory.close();
    } catch (IOException e) {
      throw inMemory(e);
    }
  }

  /**
   * Hands phrases that were made before to Lucene; the position of each is its sentence's number.
   */
  private static final class Given extends TokenStream {
    private final CharTermAttribute term = addAttribute(CharTermAttribute.class);
    private final PositionIncrementAttribute step = addAttribute(PositionIncrementAttribute.class);
    private final List<Phrase> phrases;
    private Iterator<Phrase> left;
    private int at = -1;

    Given(List<Phrase> phrases) {
      this.phrases = phrases.stream().filter(one -> one.key().length() <= MOST_LETTERS).toList();
      this.left = this.phrases.iterator();
    }

    @Override
    public void reset() throws IOException {
      super.reset();
      left = phrases.iterator();
      at = -1;
    }

    @Override
    public boolean incrementToken() {
      if (!left.hasNext()) {
        return false;
      }
      clearAttributes();
      Phrase next = left.next();
      term.append(next.key());
      step.setPositionIncrement(next.sentence() - at);
      at = next.sentence();
      return true;
    }
  }
}

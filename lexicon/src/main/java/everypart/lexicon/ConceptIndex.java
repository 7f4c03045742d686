package everypart.lexicon;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.apache.lucene.analysis.core.WhitespaceAnalyzer;
import org.apache.lucene.document.Document;
import org.apache.lucene.document.Field;
import org.apache.lucene.document.StringField;
import org.apache.lucene.document.TextField;
import org.apache.lucene.index.DirectoryReader;
import org.apache.lucene.index.IndexWriter;
import org.apache.lucene.index.IndexWriterConfig;
import org.apache.lucene.index.Term;
import org.apache.lucene.search.BooleanClause;
import org.apache.lucene.search.BooleanQuery;
import org.apache.lucene.search.BoostQuery;
import org.apache.lucene.search.ConstantScoreQuery;
import org.apache.lucene.search.FuzzyQuery;
import org.apache.lucene.search.IndexSearcher;
import org.apache.lucene.search.Query;
import org.apache.lucene.search.ScoreDoc;
import org.apache.lucene.search.TermQuery;
import org.apache.lucene.store.ByteBuffersDirectory;

/**
 * The concepts in a Lucene index, for people who look one up: by its name, its other names, or the
 * names of the concepts it goes with, spelled a little wrong if need be.
 *
 * <p>The index is made from the lexicon's files in memory each time and never kept, so it cannot
 * fall behind them. Hits are ranked by Lucene's BM25 (Robertson and Zaragoza 2009).
 */
final class ConceptIndex {
  private static final String NAMES = "names";
  private static final String RELATES = "relates";
  private static final String NAME = "name";
  private static final String VARIANT = "variant";

  /**
   * A concept whose name is the query comes first, then one that has the query for another name.
   * Large enough that no other score reaches it.
   */
  private static final float EXACT_NAME_BOOST = 10_000;

  private static final float EXACT_VARIANT_BOOST = 1_000;

  /**
   * A name counts more than a related one, an exact word more than a similar one. Chosen by eye.
   */
  private static final float NAME_BOOST = 4;

  private static final float LIKE_BOOST = 0.5f;

  private final List<Concept> concepts;
  private final WordForms forms;
  private final IndexSearcher searcher;

  ConceptIndex(Collection<Concept> concepts, WordForms forms) {
    this.concepts = List.copyOf(concepts);
    this.forms = forms;
    ByteBuffersDirectory memory = new ByteBuffersDirectory();
    try (IndexWriter writer =
        new IndexWriter(memory, new IndexWriterConfig(new WhitespaceAnalyzer()))) {
      for (Concept concept : this.concepts) {
        Document document = new Document();
        document.add(new TextField(NAMES, stems(concept.name()), Field.Store.NO));
        document.add(new StringField(NAME, stems(concept.name()), Field.Store.NO));
        for (String variant : concept.variants()) {
          document.add(new TextField(NAMES, stems(variant), Field.Store.NO));
          document.add(new StringField(VARIANT, stems(variant), Field.Store.NO));
        }
        for (String related : concept.relates()) {
          document.add(new TextField(RELATES, stems(related), Field.Store.NO));
        }
        writer.addDocument(document);
      }
      writer.forceMerge(1);
      writer.commit();
      this.searcher = new IndexSearcher(DirectoryReader.open(memory));
    } catch (IOException e) {
      throw new UncheckedIOException("the index is held in memory; no file is written", e);
    }
  }

  private String stems(String name) {
    return String.join(" ", ConceptMatcher.stems(name, forms));
  }

  private Query exact(String field, String words, float boost) {
    return new BoostQuery(
        new ConstantScoreQuery(new TermQuery(new Term(field, stems(words)))), boost);
  }

  List<Concept> search(String words, int most) {
    BooleanQuery.Builder query = new BooleanQuery.Builder();
    query.add(exact(NAME, words, EXACT_NAME_BOOST), BooleanClause.Occur.SHOULD);
    query.add(exact(VARIANT, words, EXACT_VARIANT_BOOST), BooleanClause.Occur.SHOULD);
    for (String stem : ConceptMatcher.stems(words, forms)) {
      Term name = new Term(NAMES, stem);
      query.add(new BoostQuery(new TermQuery(name), NAME_BOOST), BooleanClause.Occur.SHOULD);
      query.add(new TermQuery(new Term(RELATES, stem)), BooleanClause.Occur.SHOULD);
      int edits = stem.length() < 4 ? 0 : stem.length() < 8 ? 1 : 2;
      if (edits > 0) {
        query.add(
            new BoostQuery(new FuzzyQuery(name, edits, 1), LIKE_BOOST), BooleanClause.Occur.SHOULD);
      }
    }
    try {
      List<Concept> found = new ArrayList<>();
      for (ScoreDoc hit : searcher.search(query.build(), most).scoreDocs) {
        found.add(concepts.get(hit.doc));
      }
      return found;
    } catch (IOException e) {
      throw new UncheckedIOException("the index is held in memory; no file is read", e);
    }
  }
}

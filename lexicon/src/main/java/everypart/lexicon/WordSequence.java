package everypart.lexicon;

/**
 * A run of tokens as the matchers see it. Indexes count tokens from 0.
 *
 * <p>The lexicon asks for no more than this, so it needs to know nothing of the texts it reads.
 */
public interface WordSequence {
  /** Returns the number of tokens. */
  int size();

  /** Returns token {@code i} in lower case, with straight quotes and spelled-out short forms. */
  String form(int i);

  /** Returns the stem of token {@code i}, as {@link WordForms} makes it. */
  String stem(int i);
}

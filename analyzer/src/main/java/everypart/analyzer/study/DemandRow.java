package everypart.analyzer.study;

import everypart.analyzer.coverage.Verdict;
import everypart.lexicon.DemandKind;
import java.io.Serializable;

/**
 * The verdict on one demand of one response, as a study counts it.
 *
 * @param part the part's label
 * @param number the demand's running number within its part, from 1
 * @param position the demand's running number within the prompt, from 1
 * @param kind its kind
 * @param verb its task verb or question form
 * @param verdict the verdict
 * @param confidence the probability that the verdict is right
 * @param look whether a person should look at it
 */
public record DemandRow(
    String part,
    int number,
    int position,
    DemandKind kind,
    String verb,
    Verdict verdict,
    double confidence,
    boolean look)
    implements Serializable {}

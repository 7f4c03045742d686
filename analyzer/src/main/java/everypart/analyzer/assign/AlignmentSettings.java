package everypart.analyzer.assign;

/**
 * What the alignment weighs, and how much. The unit is the likeness of a sentence to a part, which
 * runs from 0 to a little over 1; a price is taken off.
 *
 * @param relatedWeight of a word that the lexicon relates to a concept of the part
 * @param leadWeight of a word of the sentences that lead up to what a part asks
 * @param rarityPower how fast a word's weight falls with the number of parts that share it
 * @param lengthPower how much a long wording is held against a part; 1 is a cosine
 * @param modelWeight of likeness to the author's points and model answer
 * @param modelRarityPower what {@code rarityPower} is, for the author's words
 * @param choiceFits for an answer that opens with a choice, in a part that asks for one
 * @param modalFits for a verb of outcome, in a part that asks for one
 * @param workingFits for figures with a sum, in a part that asks to calculate
 * @param comparisonFits for a word that sets one thing against another, in a part that asks to
 *     compare
 * @param noNumber what is taken off a sentence without a number, in a part that only asks to
 *     calculate
 * @param cover for the first sentence that a part gets
 * @param stayLength for staying with the part of the sentence before, times the logarithm of
 *     sentences per part: the more sentences there are, the more of them go together
 * @param stayInBlock for staying inside a line, where the writer breaks lines at all
 * @param stayOverBreak for staying over a line break
 * @param tie for staying, when the sentence leans on the one before
 * @param cohesion for staying, for each word shared with the sentence before
 * @param back the price of going back in the prompt's order at the start of a line
 * @param backInLine the price of going back inside a line
 * @param inSentence the price of turning to another part inside a sentence; {@code stayInBlock}
 *     comes on top
 * @param formFits for each form that an answer takes and its part asks for
 * @param person for each of "he" and "she" that a sentence shares with a part, and taken off for
 *     one that it does not
 * @param again the price of returning to a part that was left
 * @param meaning of the nearness in meaning, where it is asked for
 * @param besideMeaning what is left of the weight of words, where meaning is asked for
 * @param decided the lead over all other parts, in the weight of words, from which meaning is not
 *     asked for
 * @param rival of a reader's log-odds for a part over those for the part that it likes best beside
 * @param mostRival the widest distance of those log-odds that counts
 * @param placed of a reader's log-odds for a part over {@code placedFrom}, up to 4 and down to
 *     -1.5: what bears on no part goes to none
 * @param placedFrom the log-odds from which a sentence belongs to some part rather than to none
 */
record AlignmentSettings(
    double relatedWeight,
    double leadWeight,
    double rarityPower,
    double lengthPower,
    double modelWeight,
    double modelRarityPower,
    double choiceFits,
    double modalFits,
    double workingFits,
    double comparisonFits,
    double noNumber,
    double cover,
    double stayLength,
    double stayInBlock,
    double stayOverBreak,
    double tie,
    double cohesion,
    double back,
    double backInLine,
    double inSentence,
    double formFits,
    double person,
    double again,
    double meaning,
    double besideMeaning,
    double decided,
    double rival,
    double mostRival,
    double placed,
    double placedFrom) {
  /**
   * Returns the settings for words alone. They were searched for on invented and coded answers by
   * {@code AlignmentBench}, among the tests; docs/method.md has what they reach on prompts left
   * out.
   */
  static AlignmentSettings byWords() {
    return new AlignmentSettings(
        /* relatedWeight= */ 0.4,
        /* leadWeight= */ 0.75,
        /* rarityPower= */ 1.5,
        /* lengthPower= */ 0.5,
        /* modelWeight= */ 1,
        /* modelRarityPower= */ 0.5,
        /* choiceFits= */ 0.27,
        /* modalFits= */ 0.1,
        /* workingFits= */ 0.3,
        /* comparisonFits= */ 0.15,
        /* noNumber= */ 0.2,
        /* cover= */ 0.35,
        /* stayLength= */ 0.3,
        /* stayInBlock= */ 0.5,
        /* stayOverBreak= */ -1,
        /* tie= */ 0.15,
        /* cohesion= */ 0.2,
        /* back= */ 0.14,
        /* backInLine= */ 0.6,
        /* inSentence= */ 0.45,
        /* formFits= */ 0.2,
        /* person= */ 0.1,
        /* again= */ 1,
        /* meaning= */ 1,
        /* besideMeaning= */ 0.5,
        /* decided= */ 0.3,
        /* rival= */ 0,
        /* mostRival= */ 0,
        /* placed= */ 0,
        /* placedFrom= */ 0);
  }

  /**
   * Returns the settings for words and a reader, searched for on marked answers in the same way, on
   * half of the prompts; docs/judge.md has both halves. A reader that is not sure only joins in.
   */
  static AlignmentSettings beside(Bearing bearing) {
    AlignmentSettings words = byWords();
    boolean sure = bearing.isSure();
    return new AlignmentSettings(
        words.relatedWeight,
        words.leadWeight,
        words.rarityPower,
        words.lengthPower,
        words.modelWeight,
        words.modelRarityPower,
        words.choiceFits,
        words.modalFits,
        words.workingFits,
        words.comparisonFits,
        words.noNumber,
        /* cover= */ sure ? 0.48 : words.cover,
        words.stayLength,
        /* stayInBlock= */ sure ? 0.75 : words.stayInBlock,
        /* stayOverBreak= */ sure ? -0.65 : words.stayOverBreak,
        /* tie= */ sure ? 0.06 : words.tie,
        /* cohesion= */ sure ? 0 : words.cohesion,
        /* back= */ sure ? 0.78 : words.back,
        /* backInLine= */ sure ? 0.13 : words.backInLine,
        words.inSentence,
        words.formFits,
        words.person,
        /* again= */ sure ? 0.6 : words.again,
        words.meaning,
        words.besideMeaning,
        words.decided,
        /* rival= */ sure ? 0.135 : 0.08,
        /* mostRival= */ sure ? 6 : 5,
        /* placed= */ sure ? 0.165 : 0,
        /* placedFrom= */ -7);
  }
}

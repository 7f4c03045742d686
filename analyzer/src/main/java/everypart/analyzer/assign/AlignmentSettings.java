package everypart.analyzer.assign;

/**
 * What the alignment weighs, and how much.
 *
 * @param relatedWeight of a word that the lexicon relates to a concept of the part
 * @param modelWeight of a word of the author's points or model answer
 * @param leadWeight of a word of the sentences that lead up to what a part asks
 * @param rarityPower how fast a word's weight falls with the number of parts that share it
 * @param lengthPower how much a long wording is held against a part
 * @param choiceFits for an answer that opens with a choice, in a part that asks for one
 * @param reasonFits for an answer that opens with a reason, in a part that asks for one
 * @param numberFits for a number, in a part that asks for one
 * @param modalFits for a verb of outcome or advice, in a part that asks with one
 * @param cover for the first sentence that a part gets
 * @param coverPower how fast that falls with the number of sentences a part could have
 * @param none for giving a sentence to no part
 * @param stayInLine for staying with the part of the sentence before, in one line
 * @param stayOverBreak the same, over a line break
 * @param tie for staying, when the sentence leans on the one before
 * @param cohesion for staying, for each word shared with the sentence before
 * @param skip the price of each part passed over on the way forward
 * @param back the price of going back
 * @param first for beginning with the first part
 */
record AlignmentSettings(
    double relatedWeight,
    double modelWeight,
    double leadWeight,
    double rarityPower,
    double lengthPower,
    double choiceFits,
    double reasonFits,
    double numberFits,
    double modalFits,
    double cover,
    double coverPower,
    double none,
    double stayInLine,
    double stayOverBreak,
    double tie,
    double cohesion,
    double skip,
    double back,
    double first) {
  static AlignmentSettings standard() {
    return new AlignmentSettings(
        0.4, 2.2, 0.75, 1.5, 0.3, 0.27, 0.1, 0.3, 0.1, 0.3, 0.57, 0, 0.25, -0.7, 0.15, 0, 0.02,
        0.14, 0);
  }

  static AlignmentSettings of(double[] v) {
    return new AlignmentSettings(
        v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8], v[9], v[10], v[11], v[12], v[13],
        v[14], v[15], v[16], v[17], v[18]);
  }

  double[] values() {
    return new double[] {
      relatedWeight,
      modelWeight,
      leadWeight,
      rarityPower,
      lengthPower,
      choiceFits,
      reasonFits,
      numberFits,
      modalFits,
      cover,
      coverPower,
      none,
      stayInLine,
      stayOverBreak,
      tie,
      cohesion,
      skip,
      back,
      first
    };
  }
}

package everypart.analyzer.study.statistics;

import java.util.Optional;

/**
 * How common a thing is, corrected for the errors of the program that looked for it.
 *
 * <p>The estimate: Rogan WJ, Gladen B (1978) Estimating prevalence from the results of a screening
 * test. American J Epidemiology 107:71-76. The interval, which carries the uncertainty of the
 * prevalence and of both error rates: Lang Z, Reiczigel J (2014) Confidence limits for prevalence
 * of disease adjusted for estimated sensitivity and specificity. Preventive Veterinary Medicine
 * 113:13-22. Our own: no permissive Java library has either.
 *
 * @param apparent the share that the program flagged
 * @param apparentSize how many items that share rests on; an effective number when they are
 *     clustered
 * @param sensitivity how many of the true ones it flags
 * @param specificity how many of the others it leaves alone
 */
public record CorrectedPrevalence(
    double apparent, double apparentSize, DetectionRate sensitivity, DetectionRate specificity) {

  /**
   * Checks the range.
   *
   * @throws IllegalArgumentException when the share is no proportion or its size not above 0
   */
  public CorrectedPrevalence {
    if (!(apparent >= 0 && apparent <= 1) || !(apparentSize > 0)) {
      throw new IllegalArgumentException("no prevalence: " + apparent + " of " + apparentSize);
    }
  }

  /** Makes one from plain counts. */
  public static CorrectedPrevalence of(
      Proportion apparent, Proportion sensitivity, Proportion specificity) {
    return new CorrectedPrevalence(
        apparent.rate(),
        (double) apparent.total(),
        DetectionRate.of(sensitivity),
        DetectionRate.of(specificity));
  }

  /**
   * Returns the corrected prevalence before it is cut to 0 to 1; nothing when the program does no
   * better than chance (sensitivity + specificity of 1 or less).
   */
  public Optional<Double> uncut() {
    double skill = sensitivity.rate() + specificity.rate() - 1;
    return skill > 0 ? Optional.of((apparent + specificity.rate() - 1) / skill) : Optional.empty();
  }

  /**
   * Returns the corrected prevalence cut to 0 to 1, with its interval; nothing when the program
   * does no better than chance.
   */
  public Optional<Estimate> estimate(Level level) {
    DetectionRate sens = sensitivity.plusOneEach();
    DetectionRate spec = specificity.plusOneEach();
    double skill = sens.rate() + spec.rate() - 1;
    if (skill <= 0) {
      return Optional.empty();
    }
    double z = level.normalQuantile();
    double size = apparentSize + z * z;
    double rate = (apparent * apparentSize + z * z / 2) / size;
    double centre = (rate + spec.rate() - 1) / skill;
    double ofSensitivity = sens.rate() * (1 - sens.rate()) / sens.size();
    double ofSpecificity = spec.rate() * (1 - spec.rate()) / spec.size();
    double variance =
        (rate * (1 - rate) / size
                + centre * centre * ofSensitivity
                + (1 - centre) * (1 - centre) * ofSpecificity)
            / (skill * skill);
    double shift = 2 * z * z * (centre * ofSensitivity - (1 - centre) * ofSpecificity);
    double half = z * Math.sqrt(variance);
    Interval interval = new Interval(centre + shift - half, centre + shift + half).withinUnit();
    return uncut().map(value -> new Estimate(Math.max(0, Math.min(1, value)), interval));
  }
}

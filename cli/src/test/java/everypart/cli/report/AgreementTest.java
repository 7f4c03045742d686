package everypart.cli.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class AgreementTest {
  /**
   * Two readers of 50 proposals, 20 both yes, 15 both no, 5 and 10 apart: agreement 0.70, chance
   * 0.50, kappa 0.40 (the worked example of the article "Cohen's kappa" in Wikipedia).
   */
  @Test
  void kappaIsThatOfAPublishedExample() {
    assertEquals(0.40, new Agreement(20, 5, 10, 15).kappa(), 1e-9);
  }

  @Test
  void judgesThatAlwaysSayTheSameOneThingAgree() {
    assertEquals(1, new Agreement(7, 0, 0, 0).kappa());
  }

  @Test
  void judgesThatAgreeAsOftenAsByChanceGetZero() {
    assertEquals(0, new Agreement(1, 1, 1, 1).kappa(), 1e-9);
  }
}

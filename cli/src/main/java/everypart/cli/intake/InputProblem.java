package everypart.cli.intake;

/**
 * Something wrong with an input, told in one sentence.
 *
 * @param place where
 * @param what what is wrong
 * @param mend how to mend it
 * @param weight whether something was lost by it
 */
public record InputProblem(Place place, String what, String mend, Weight weight)
    implements Arrival {
  /** What a problem does to the outcome. */
  public enum Weight {
    /** An input could not be used as given; the exit status says so. */
    LOST,
    /** All was read, yet the reader made a choice that a person should know of. */
    NOTED
  }

  /** Returns a problem by which an input was lost. */
  public static InputProblem lost(Place place, String what, String mend) {
    return new InputProblem(place, what, mend, Weight.LOST);
  }

  /** Returns a choice that a person should know of. */
  public static InputProblem noted(Place place, String what, String mend) {
    return new InputProblem(place, what, mend, Weight.NOTED);
  }

  /** Returns the sentence. */
  public String sentence() {
    return place + ": " + what + "; " + mend + ".";
  }
}

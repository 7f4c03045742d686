package everypart.cli.intake;

/**
 * Something wrong with an input, told in one sentence.
 *
 * @param place where
 * @param what what is wrong
 * @param mend how to mend it
 * @param weight what it does to the outcome
 */
public record InputProblem(Place place, String what, String mend, Weight weight)
    implements Arrival {
  /** What a problem does to the outcome. */
  public enum Weight {
    /** An input could not be used as given; the exit status says so. */
    FAULT,
    /** All was read, yet the reader made a choice that a person should know of. */
    NOTE
  }

  /** Returns a problem by which an input could not be used as given. */
  public static InputProblem fault(Place place, String what, String mend) {
    return new InputProblem(place, what, mend, Weight.FAULT);
  }

  /** Returns a choice that a person should know of. */
  public static InputProblem note(Place place, String what, String mend) {
    return new InputProblem(place, what, mend, Weight.NOTE);
  }

  /** Returns the sentence. */
  public String sentence() {
    return place + ": " + what + "; " + mend + ".";
  }
}

package everypart.cli.intake;

/**
 * Leaves out what a class has beyond what its page can be made of: everything on the page is in
 * memory until it is written. Very long texts may take half of it, so that one person's files leave
 * room for the others'. A problem stands in place of each that is left out.
 */
public final class WithinMemory extends PassedOn {
  /** What a response takes beside its text: its row of the page and its rows of the tables. */
  private static final long BESIDE = 2_000;

  /** A character of most languages takes two bytes. */
  private static final long BYTES_A_CHARACTER = 2;

  /** Nobody writes as many characters in an answer. */
  private static final long VERY_LONG = 100_000;

  private final long most;
  private long held;

  /**
   * Wraps arrivals.
   *
   * @param most the bytes that the page of a class may take
   */
  public WithinMemory(Arrivals inner, long most) {
    super(inner);
    this.most = most;
  }

  @Override
  Arrival pass(Arrival arrival) {
    if (!(arrival instanceof Response response)) {
      return arrival;
    }
    long characters = response.text().length();
    for (String group : response.groups().values()) {
      characters += group.length();
    }
    long with = held + BESIDE + BYTES_A_CHARACTER * characters;
    if (with > (characters > VERY_LONG ? most / 2 : most)) {
      return InputProblem.fault(
          response.place(), Sayings.of("class.tooLarge"), Sayings.of("class.tooLarge.mend"));
    }
    held = with;
    return arrival;
  }
}

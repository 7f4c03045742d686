package everypart.cli.intake;

/**
 * Leaves out the responses of a class for which there is no room before any work is done on them. A
 * problem stands in place of each that is left out.
 */
public final class WithinMemory extends PassedOn {
  /** What a response takes beside its text: its row of the page and its rows of the tables. */
  private static final long BESIDE = 2_000;

  private final Room room;

  /**
   * Wraps arrivals.
   *
   * @param room what the texts of the class may take
   */
  public WithinMemory(Arrivals inner, Room room) {
    super(inner);
    this.room = room;
  }

  @Override
  Arrival pass(Arrival arrival) {
    if (!(arrival instanceof Response response)) {
      return arrival;
    }
    long characters = response.text().length();
    long bytes = BESIDE + Room.bytes(response.text()) + Room.bytesInPage(response.text());
    for (String group : response.groups().values()) {
      characters += group.length();
      bytes += Room.bytes(group) + Room.bytesInPage(group);
    }
    return room.take(bytes, characters) ? arrival : Room.tooLarge(response.place());
  }
}

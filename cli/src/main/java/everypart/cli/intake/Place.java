package everypart.cli.intake;

import java.util.OptionalLong;

/**
 * Where in the input something stands.
 *
 * @param source the file as the caller named it, or "standard input"
 * @param line the line, counted from 1; empty when the whole file is meant
 */
public record Place(String source, OptionalLong line) {
  /** Returns the place of a whole file. */
  public static Place file(String source) {
    return new Place(source, OptionalLong.empty());
  }

  /** Returns a line of this place's file. */
  public Place atLine(long number) {
    return new Place(source, OptionalLong.of(number));
  }

  @Override
  public String toString() {
    return line.isPresent() ? source + ", line " + line.getAsLong() : source;
  }
}

package everypart.cli.intake;

/**
 * A text with a name.
 *
 * @param id its id in a CSV file, or the number of its line
 * @param text the text
 */
public record NamedText(String id, String text) {}

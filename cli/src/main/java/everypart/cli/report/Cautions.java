package everypart.cli.report;

/** What every report for people says about itself. */
final class Cautions {
  /** For the writer of a response. */
  static final String WRITER = Wording.of("caution.writer");

  /** For the reader of a class set or a study. */
  static final String READER = Wording.of("caution.reader");

  /** For a student, on a slip. */
  static final String SLIP = Wording.of("caution.slip");

  private Cautions() {}
}

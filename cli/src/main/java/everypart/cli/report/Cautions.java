package everypart.cli.report;

/** What every report for people says about itself. */
final class Cautions {
  /** For the writer of a response. */
  static final String WRITER =
      "This is a reading aid, not a mark. \"Missing\" means that the program did not find it; your"
          + " own reading and your teacher's decide. It looks at whether each part is answered, not"
          + " at whether the answer is right. It reads less well when English is new to you, when"
          + " you dictated your answer, or when the answer is very short.";

  /** For the reader of a class set or a study. */
  static final String READER =
      "This is a reading aid, not a mark. \"Missing\" means that the program did not find it; the"
          + " teacher and the school's policy decide. It looks at whether each part is answered, not"
          + " at whether the answer is right. It reads less well the writing of learners of English,"
          + " dictated answers and very short ones: look at those yourself.";

  /** For a student, on a slip. */
  static final String SLIP =
      "This comes from a program that checks whether each part of the question is answered, not"
          + " whether the answer is right. It can overlook things: if you did answer a part, trust"
          + " your own reading and tell your teacher.";

  private Cautions() {}
}

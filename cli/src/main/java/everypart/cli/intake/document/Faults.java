package everypart.cli.intake.document;

/** What can be wrong with files of any format. */
final class Faults {
  static final Remark DAMAGED =
      new Remark(
          "the file is damaged or cut short",
          "open it in its own program and save it again, or ask its writer for it once more");

  static final Remark LOCKED =
      new Remark(
          "the file is protected by a password",
          "save it without one, or ask its writer for an open copy");

  static final Remark NO_FILE =
      new Remark(
          "this is a pipe or a device, not a file", "save what it gives as a file, and give that");

  static final Remark NO_MEMORY =
      new Remark(
          "reading it takes more memory than there is, so it was left out",
          "copy its text into a new file, or give the program more memory");

  static final Remark TOO_DEEP =
      new Remark(
          "what it holds is nested too deep to be read, so it was left out",
          "copy its text into a new file");

  static final Remark NO_TEXT =
      new Remark("there is no text in this file", "check that the right file was saved");

  static final Remark ONLY_PICTURES =
      new Remark(
          "there are only pictures in this file, no text to read",
          "ask its writer to type the answer, or type it in");

  private Faults() {}

  static Remark pictures(int count) {
    return new Remark(
        count == 1
            ? "it holds a picture, which was not read"
            : "its " + count + " pictures were not read",
        "look at the file itself where the answer is in a picture");
  }

  static Remark footnotes(int count) {
    return new Remark(
        count == 1 ? "a footnote was left out" : count + " footnotes were left out",
        "move what belongs to the answer into its text");
  }
}

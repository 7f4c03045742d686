package everypart.cli.intake.document;

/** What can be wrong with files of any format. */
final class Faults {
  static final Remark DAMAGED =
      new Remark(Sayings.of("faults.fileDamagedCut"), Sayings.of("faults.openOwnProgram"));

  static final Remark LOCKED =
      new Remark(Sayings.of("faults.fileProtectedPassword"), Sayings.of("faults.saveWithoutOne"));

  static final Remark NO_FILE =
      new Remark(Sayings.of("faults.pipeDeviceFile"), Sayings.of("faults.saveWhatGives"));

  static final Remark NO_MEMORY =
      new Remark(Sayings.of("faults.readingTakesMore"), Sayings.of("faults.copyTextInto"));

  static final Remark TOO_DEEP =
      new Remark(Sayings.of("faults.whatHoldsNested"), Sayings.of("faults.copyTextInto2"));

  static final Remark NO_TEXT =
      new Remark(Sayings.of("faults.noTextFile"), Sayings.of("faults.checkRightFile"));

  static final Remark ONLY_PICTURES =
      new Remark(Sayings.of("faults.onlyPicturesFile"), Sayings.of("faults.askWriterType"));

  private Faults() {}

  static Remark pictures(int count) {
    return new Remark(
        count == 1
            ? Sayings.of("faults.holdsPictureWhich")
            : Sayings.of("faults.picturesRead", count),
        Sayings.of("faults.lookFileItself"));
  }

  static Remark footnotes(int count) {
    return new Remark(
        count == 1
            ? Sayings.of("faults.footnoteLeftOut")
            : Sayings.of("faults.footnotesLeftOut", count),
        Sayings.of("faults.moveWhatBelongs"));
  }
}

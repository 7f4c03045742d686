package everypart.cli.intake.document;

/** What can be wrong with files of any format. */
final class Faults {
  static final FileRemark DAMAGED =
      new FileRemark(Sayings.of("faults.fileDamagedCut"), Sayings.of("faults.openOwnProgram"));

  static final FileRemark LOCKED =
      new FileRemark(
          Sayings.of("faults.fileProtectedPassword"), Sayings.of("faults.saveWithoutOne"));

  static final FileRemark NO_FILE =
      new FileRemark(Sayings.of("faults.pipeDeviceFile"), Sayings.of("faults.saveWhatGives"));

  static final FileRemark NO_MEMORY =
      new FileRemark(Sayings.of("faults.readingTakesMore"), Sayings.of("faults.copyTextInto"));

  static final FileRemark TOO_DEEP =
      new FileRemark(Sayings.of("faults.whatHoldsNested"), Sayings.of("faults.copyTextInto2"));

  static final FileRemark NO_TEXT =
      new FileRemark(Sayings.of("faults.noTextFile"), Sayings.of("faults.checkRightFile"));

  static final FileRemark ONLY_PICTURES =
      new FileRemark(Sayings.of("faults.onlyPicturesFile"), Sayings.of("faults.askWriterType"));

  private Faults() {}

  static FileRemark pictures(int count) {
    return new FileRemark(
        count == 1
            ? Sayings.of("faults.holdsPictureWhich")
            : Sayings.of("faults.picturesRead", count),
        Sayings.of("faults.lookFileItself"));
  }

  static FileRemark footnotes(int count) {
    return new FileRemark(
        count == 1
            ? Sayings.of("faults.footnoteLeftOut")
            : Sayings.of("faults.footnotesLeftOut", count),
        Sayings.of("faults.moveWhatBelongs"));
  }
}

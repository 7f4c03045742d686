package everypart.cli.intake.document;

import java.util.Locale;
import java.util.Optional;

/**
 * What is bounded while a file is read. The bounds are far above what anybody writes; they keep a
 * file that is broken, or made to do harm, from filling the memory or holding up the class.
 */
public enum Limit {
  /** The size of a file in MB, and of a file in a zip file once unpacked. */
  FILE(100, "MB", Sayings.of("limit.leaveOutPictures")),
  /** What the parts read of one document unpack to, in MB. */
  UNPACKED(100, Sayings.of("limit.mbOnceUnpacked"), Sayings.of("limit.saveTextAlone")),
  /** The text of one document or one cell, in characters. */
  TEXT(20_000_000, Sayings.of("limit.charactersText"), Sayings.of("limit.giveOneResponse")),
  /** The text between two tags of a document, in characters. */
  PIECE(8_000_000, Sayings.of("limit.charactersWithoutBreak"), Sayings.of("limit.saveTextAlone")),
  /** The entries of a zip file, or of a document packed like one. */
  ENTRIES(20_000, Sayings.of("limit.filesOne"), Sayings.of("limit.splitIt")),
  /** The elements of a web page. */
  ELEMENTS(500_000, "elements", Sayings.of("limit.saveTextAlone2")),
  /** How deep elements of a document stand in each other. */
  NESTING(300, Sayings.of("limit.levelsElementsElements"), Sayings.of("faults.copyTextInto2")),
  /** The pages of a PDF. */
  PAGES(3_000, "pages", Sayings.of("limit.savePagesAnswer")),
  /** The characters on one page of a PDF. */
  PAGE(200_000, Sayings.of("limit.charactersOnePage"), Sayings.of("limit.printNewPdf")),
  /** The drawing steps of a PDF. */
  STEPS(2_000_000, Sayings.of("limit.drawingSteps"), Sayings.of("limit.printNewPdf")),
  /** The rows of a class sheet. */
  ROWS(200_000, "rows", Sayings.of("limit.splitUseStudy")),
  /** The columns of a class sheet. */
  COLUMNS(5_000, "columns", Sayings.of("limit.deleteColumnsHold")),
  /** The filled cells of a class sheet. */
  CELLS(5_000_000, "cells", Sayings.of("limit.splitIt")),
  /** The digits of a number in a workbook when it is written out. */
  DIGITS(400, Sayings.of("limit.digitsOneNumber"), Sayings.of("limit.correctCell")),
  /** The time to read one document, in seconds of the processor. */
  SECONDS(20, Sayings.of("limit.secondsWork"), Sayings.of("faults.copyTextInto2"));

  private final long usual;
  private final String of;
  private final String mend;

  Limit(long usual, String of, String mend) {
    this.usual = usual;
    this.of = of;
    this.mend = mend;
  }

  /** Returns the bound where the user gives none. */
  public long usual() {
    return usual;
  }

  /** Returns its name in {@code --limit}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Returns what is counted. */
  public String counted() {
    return of;
  }

  /** Returns the limit of this name in {@code --limit}; empty when there is none. */
  public static Optional<Limit> of(String word) {
    for (Limit limit : values()) {
      if (limit.word().equals(word.toLowerCase(Locale.ROOT))) {
        return Optional.of(limit);
      }
    }
    return Optional.empty();
  }

  /** Returns what is said of a file that goes over this bound. */
  FileRemark exceeded(long bound) {
    return new FileRemark(
        this == SECONDS
            ? Sayings.of("limit.readingTookMore", bound, of)
            : Sayings.of("limit.moreThanRead", bound, of),
        Sayings.of("limit.raiseBoundLimit", mend, word()));
  }
}

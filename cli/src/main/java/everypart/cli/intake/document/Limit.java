package everypart.cli.intake.document;

import java.util.Locale;
import java.util.Optional;

/**
 * What is bounded while a file is read. The bounds are far above what anybody writes; they keep a
 * file that is broken, or made to do harm, from filling the memory or holding up the class.
 */
public enum Limit {
  /** The size of a file in MB, and of a file in a zip file once unpacked. */
  FILE(100, "MB", "leave out its pictures, or save its text alone"),
  /** What the parts read of one document unpack to, in MB. */
  UNPACKED(100, "MB once unpacked", "save its text alone in a new file"),
  /** The text of one document or one cell, in characters. */
  TEXT(20_000_000, "characters of text", "give one response a file"),
  /** The text between two tags of a document, in characters. */
  PIECE(8_000_000, "characters without a break", "save its text alone in a new file"),
  /** The entries of a zip file, or of a document packed like one. */
  ENTRIES(20_000, "files in one", "split it"),
  /** The elements of a web page. */
  ELEMENTS(500_000, "elements", "save its text alone"),
  /** How deep elements of a document stand in each other. */
  NESTING(300, "levels of elements in elements", "copy its text into a new file"),
  /** The pages of a PDF. */
  PAGES(3_000, "pages", "save the pages of the answer alone"),
  /** The characters on one page of a PDF. */
  PAGE(200_000, "characters on one page", "print it to a new PDF, or save its text alone"),
  /** The drawing steps of a PDF. */
  STEPS(2_000_000, "drawing steps", "print it to a new PDF, or save its text alone"),
  /** The rows of a class sheet. */
  ROWS(200_000, "rows", "split it, or use study, which has no such bound"),
  /** The columns of a class sheet. */
  COLUMNS(5_000, "columns", "delete the columns that hold nothing"),
  /** The filled cells of a class sheet. */
  CELLS(5_000_000, "cells", "split it"),
  /** The digits of a number in a workbook when it is written out. */
  DIGITS(400, "digits in one number", "correct the cell"),
  /** The time to read one document, in seconds of the processor. */
  SECONDS(20, "seconds of work", "copy its text into a new file");

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
  Remark exceeded(long bound) {
    return new Remark(
        this == SECONDS
            ? "reading it took more than " + bound + " " + of + ", so it was left out"
            : "it has more than " + bound + " " + of + ", so it was not read",
        mend + ", or raise the bound with --limit " + word() + "=N");
  }
}

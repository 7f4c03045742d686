package everypart.cli.intake.document;

import java.util.List;

/** Reads plain text and Markdown, as they stand. */
final class PlainTextReader implements FormatReader {
  static final Remark GUESSED =
      new Remark(
          "the file does not say its encoding, and it is not UTF-8, so it was guessed",
          "save it as UTF-8 if letters look wrong");

  static final Remark NO_TEXT_FILE =
      new Remark("this is not a text file", "save it as plain text in UTF-8");

  @Override
  public void read(byte[] bytes, Blocks blocks, List<Remark> remarks, Meter meter)
      throws DocumentException {
    Encodings.Decoded decoded =
        Encodings.decode(bytes).orElseThrow(() -> new DocumentException(NO_TEXT_FILE));
    blocks.asGiven(decoded.text());
    if (decoded.guessed()) {
      remarks.add(GUESSED);
    }
  }
}

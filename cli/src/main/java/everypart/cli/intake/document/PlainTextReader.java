package everypart.cli.intake.document;

import java.util.List;

/** Reads plain text and Markdown, as they stand. */
final class PlainTextReader implements FormatReader {
  static final FileRemark GUESSED =
      new FileRemark(
          Sayings.of("plainTextReader.fileDoesSay"), Sayings.of("plainTextReader.saveUtfIf"));

  static final FileRemark NO_TEXT_FILE =
      new FileRemark(
          Sayings.of("plainTextReader.textFile"), Sayings.of("plainTextReader.savePlainText"));

  @Override
  public void read(byte[] bytes, Blocks blocks, List<FileRemark> remarks, Meter meter)
      throws DocumentException {
    Encodings.Decoded decoded =
        Encodings.decode(bytes).orElseThrow(() -> new DocumentException(NO_TEXT_FILE));
    blocks.asGiven(decoded.text());
    if (decoded.guessed()) {
      remarks.add(GUESSED);
    }
  }
}

package everypart.cli.intake.document;

/**
 * How much a file may hold. The bounds are far above what anybody writes and keep a hostile file
 * from filling the memory.
 *
 * @param fileBytes the size of a file, and of a file in a zip file once unpacked
 * @param unpackedBytes what the parts read of one document may unpack to
 * @param characters the text of one document
 * @param entries the entries of a zip file or of a document packed like one
 */
record Limits(long fileBytes, long unpackedBytes, int characters, int entries) {
  static final Limits USUAL = new Limits(100L << 20, 400L << 20, 20_000_000, 20_000);

  Limits {
    if (fileBytes < 1 || unpackedBytes < 1 || characters < 1 || entries < 1) {
      throw new IllegalArgumentException("every limit is at least 1");
    }
  }

  /** Returns a number of bytes in words. */
  static String inWords(long bytes) {
    return bytes < 1 << 20 ? bytes / 1024 + " KB" : (bytes >> 20) + " MB";
  }
}

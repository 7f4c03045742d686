package everypart.cli.open;

/** A request that is not answered as asked, with a status of HTTP and a sentence for people. */
final class Refusal extends Exception {
  private static final long serialVersionUID = 1;

  private final int status;

  Refusal(int status, String sentence) {
    super(sentence);
    this.status = status;
  }

  int status() {
    return status;
  }

  String sentence() {
    return String.valueOf(getMessage());
  }
}

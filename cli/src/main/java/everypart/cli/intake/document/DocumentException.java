package everypart.cli.intake.document;

/** Thrown when a file cannot be read; says why, and how to mend it. */
public final class DocumentException extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient FileRemark remark;

  /** Carries the reason. */
  DocumentException(FileRemark remark) {
    super(remark.sentence());
    this.remark = remark;
  }

  /** Carries the reason. */
  DocumentException(String what, String mend) {
    this(new FileRemark(what, mend));
  }

  /** Returns the reason, without the file's name. */
  public FileRemark remark() {
    return remark;
  }
}

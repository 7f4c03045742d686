package everypart.analyzer.prompt;

/** Whether a demand has to be met. */
public enum Standing {
  /** It has to be met. */
  REQUIRED,
  /** The writer may leave it out: a bonus question, or one marked as optional. */
  OPTIONAL,
  /** It may be met instead of the demand before it in the part: "describe X or explain Y". */
  ALTERNATIVE
}

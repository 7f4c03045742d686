package everypart.analyzer.assign;

import java.util.EnumSet;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * A form that an answer can take, with the wordings that ask for it. Common practice, no source.
 */
enum AnswerForm {
  /** Opens as a reason: "so that", "due to", "I think because". */
  REASON(
      Form.WHY,
      "(?:it'?s? (?:is |was )?|that (?:is |happens |happened )|i (?:think|know|chose|picked)[^.]{0,20}?)?"
          + "(?:because|since|so|to|due to|in order)\\b",
      true),

  /** Says "because" anywhere. */
  CAUSE(Form.WHY, "\\bbecause\\b", false),

  /** Opens with what happens or would happen. */
  OUTCOME(
      "\\bwhat (?:will|would|happens?|do you think would)\\b[^.?!]{0,40}\\bhappens?\\b|\\bwhat happens\\b"
          + "|\\bpredict\\b|\\bhow (?:does|would|will|do|did)\\b[^?!]{0,60}\\b(?:affect|change|influence)",
      "(?:it|they|he|she|nothing|the [\\w ]{1,20}?)? ?"
          + "(?:will|would|won't|wouldn't|gets?|goes|becomes?|makes?|increases?|decreases?|happens?)\\b",
      true),

  /** Says what something means: "that there is", "it shows that". */
  MEANING(
      "\\bwhat (?:does|do|did|would|will|can)\\b[^.?!]{0,60}\\b(?:mean|tell|show|indicate|suggest)\\b"
          + "|\\bwhat do you think\\b[^.?!]{0,30}\\bmeans?\\b",
      "that\\b|(?:\\S+ ){0,40}?(?:means?|tells?|shows?|indicates?)\\b",
      true);

  /** Wordings that several forms answer. */
  private static final class Form {
    static final String WHY = "\\bwhy\\b|\\bexplain\\b|\\bjustify|\\breason|\\bevidence";
  }

  private final Pattern asked;
  private final Pattern taken;
  private final boolean opens;

  AnswerForm(String asked, String taken, boolean opens) {
    this.asked = Pattern.compile(asked, Pattern.CASE_INSENSITIVE);
    this.taken = Pattern.compile(taken, Pattern.CASE_INSENSITIVE);
    this.opens = opens;
  }

  /** Returns the forms that a wording asks for. */
  static Set<AnswerForm> askedBy(String wording) {
    Set<AnswerForm> forms = EnumSet.noneOf(AnswerForm.class);
    for (AnswerForm form : values()) {
      if (form.asked.matcher(wording).find()) {
        forms.add(form);
      }
    }
    return forms;
  }

  /** Returns the forms that a stretch of a response takes. */
  static Set<AnswerForm> takenBy(String raw, int start, int end) {
    Set<AnswerForm> forms = EnumSet.noneOf(AnswerForm.class);
    for (AnswerForm form : values()) {
      var matcher = form.taken.matcher(raw).region(start, end);
      if (form.opens ? matcher.lookingAt() : matcher.find()) {
        forms.add(form);
      }
    }
    return forms;
  }
}

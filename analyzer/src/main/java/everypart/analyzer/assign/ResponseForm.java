package everypart.analyzer.assign;

import everypart.analyzer.prompt.Demand;
import everypart.lexicon.Aspect;
import everypart.lexicon.DemandKind;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * A form that a sentence or clause of a response can take, such as that of a reason. Which demands
 * ask for which form was written down from general knowledge; {@link AlignmentSettings#formFits}
 * says how much it counts.
 */
enum ResponseForm {
  /** Opens as a reason: "so that", "due to", "I think because". */
  REASON(
      "(?:it'?s? (?:is |was )?|that (?:is |happens |happened )|i (?:think|know|chose|picked)[^.]{0,20}?)?"
          + "(?:because|since|so|to|due to|in order)\\b",
      true),

  /** Says "because" anywhere. */
  CAUSE("\\bbecause\\b", false),

  /** Opens with what happens or would happen. */
  OUTCOME(
      "(?:it|they|he|she|nothing|the [\\w ]{1,20}?)? ?"
          + "(?:will|would|won't|wouldn't|gets?|goes|becomes?|makes?|increases?|decreases?|happens?)\\b",
      true),

  /** Says what something means: "that there is", "it shows that". */
  MEANING("that\\b|(?:\\S+ ){0,40}?(?:means?|tells?|shows?|indicates?)\\b", true);

  private final Pattern taken;
  private final boolean opens;

  ResponseForm(String taken, boolean opens) {
    this.taken = Pattern.compile(taken, Pattern.CASE_INSENSITIVE);
    this.opens = opens;
  }

  /** Returns the forms in which the demands of a part may be answered. */
  static Set<ResponseForm> askedBy(List<Demand> demands) {
    Set<ResponseForm> forms = EnumSet.noneOf(ResponseForm.class);
    for (Demand demand : demands) {
      if (demand.kind() == DemandKind.EXPLAIN || demand.kind() == DemandKind.JUSTIFY) {
        forms.addAll(EnumSet.of(REASON, CAUSE));
      }
      if (demand.kind() == DemandKind.PREDICT
          || demand.asking().aspects().contains(Aspect.OUTCOME)) {
        forms.add(OUTCOME);
      }
      if (demand.kind() == DemandKind.DEFINE
          || demand.asking().aspects().contains(Aspect.MEANING)) {
        forms.add(MEANING);
      }
    }
    return forms;
  }

  /** Returns the forms that a stretch of a response takes. */
  static Set<ResponseForm> takenBy(String raw, int start, int end) {
    Set<ResponseForm> forms = EnumSet.noneOf(ResponseForm.class);
    for (ResponseForm form : values()) {
      var matcher = form.taken.matcher(raw).region(start, end);
      if (form.opens ? matcher.lookingAt() : matcher.find()) {
        forms.add(form);
      }
    }
    return forms;
  }
}

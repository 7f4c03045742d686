package everypart.cli.intake;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Responses whose writers are not named: ids become pseudonyms, names in the text are taken out,
 * and of the further columns only those asked for are kept.
 */
public final class Veiled extends PassedOn {
  private final Optional<Pseudonyms> pseudonyms;
  private final Redaction redaction;
  private final Set<String> kept;

  /**
   * Wraps arrivals.
   *
   * @param kept the further columns that are kept where there are pseudonyms
   */
  public Veiled(
      Arrivals inner, Optional<Pseudonyms> pseudonyms, Redaction redaction, Set<String> kept) {
    super(inner);
    this.pseudonyms = pseudonyms;
    this.redaction = redaction;
    this.kept = Set.copyOf(kept);
  }

  @Override
  Arrival pass(Arrival arrival) {
    return arrival instanceof Response response ? veil(response) : arrival;
  }

  private Response veil(Response response) {
    Map<String, String> groups = new LinkedHashMap<>();
    String id = response.id();
    String student = response.groups().getOrDefault(SheetResponses.STUDENT, "");
    boolean each = !student.isEmpty() && id.startsWith(student + "/");
    for (Map.Entry<String, String> group : response.groups().entrySet()) {
      boolean own = each && group.getKey().equals(SheetResponses.STUDENT);
      if (own && pseudonyms.isPresent()) {
        groups.put(group.getKey(), pseudonyms.get().of(student));
      } else if (pseudonyms.isEmpty() || kept.contains(group.getKey())) {
        groups.put(group.getKey(), redaction.apply(group.getValue()));
      }
    }
    if (pseudonyms.isPresent()) {
      id =
          each
              ? pseudonyms.get().of(student) + id.substring(student.length())
              : pseudonyms.get().of(id);
    }
    return new Response(
        id, response.promptId(), redaction.apply(response.text()), groups, response.place());
  }
}

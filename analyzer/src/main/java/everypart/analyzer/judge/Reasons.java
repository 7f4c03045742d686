package everypart.analyzer.judge;

import com.fasterxml.jackson.databind.JsonNode;
import everypart.lexicon.DemandKind;
import everypart.lexicon.KeptYaml;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;

/** The words of the reasons, read once from {@code reasons.yaml}. */
final class Reasons {
  private static final String FILE = "reasons.yaml";

  private final JsonNode root;
  private final Map<DemandKind, Set<Lack>> possible = new EnumMap<>(DemandKind.class);

  private Reasons(JsonNode root) {
    this.root = root;
    for (DemandKind kind : DemandKind.values()) {
      Set<Lack> lacks = EnumSet.noneOf(Lack.class);
      for (Lack lack : Lack.values()) {
        JsonNode only = root.path("missing").path(lack.word()).path("kinds");
        boolean fits = only.isMissingNode();
        for (JsonNode one : only) {
          fits |= one.asText().equals(kind.word());
        }
        if (fits) {
          lacks.add(lack);
        }
      }
      possible.put(kind, lacks);
    }
  }

  static Reasons bundled() {
    return new Reasons(KeptYaml.read(Reasons.class, FILE));
  }

  /** Returns why a demand of a kind is addressed. */
  String addressed(DemandKind kind) {
    return text(root.path("addressed").path(kind.word()), "addressed: " + kind.word());
  }

  /** Returns what a demand lacks. */
  String missing(Lack lack) {
    return text(root.path("missing").path(lack.word()).path("text"), "missing: " + lack.word());
  }

  /** Returns any other sentence of the file. */
  String other(String name) {
    return text(root.path("other").path(name), "other: " + name);
  }

  /** Tells whether a demand of a kind can lack that. */
  boolean fits(Lack lack, DemandKind kind) {
    return possible.getOrDefault(kind, Set.of()).contains(lack);
  }

  private static String text(JsonNode node, String name) {
    if (!node.isTextual()) {
      throw new IllegalStateException(FILE + " lacks the text of \"" + name + "\"");
    }
    return node.asText();
  }
}

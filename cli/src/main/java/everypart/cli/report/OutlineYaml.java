package everypart.cli.report;

import everypart.analyzer.points.Proposals;
import everypart.analyzer.prompt.Demand;
import everypart.analyzer.prompt.Part;
import everypart.analyzer.prompt.Point;
import everypart.analyzer.prompt.Prompt;
import everypart.analyzer.prompt.Remark;
import everypart.analyzer.prompt.Standing;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * A prompt in YAML with the demands that were read, for its author to correct. Read again, it makes
 * the same demands. Why each demand was read, and points proposed from a model answer, stand in
 * comments, so that nothing is taken over unseen.
 */
public final class OutlineYaml {
  private static final int WIDTH = 100;
  private static final Set<String> KEYWORDS =
      Set.of("true", "false", "null", "yes", "no", "on", "off", "y", "n");

  private final PrintWriter out;

  private OutlineYaml(PrintWriter out) {
    this.out = out;
  }

  /**
   * Writes a prompt.
   *
   * @param proposals what a model answer suggests, when one was given
   */
  public static void write(Prompt prompt, Optional<Proposals> proposals, PrintWriter out) {
    new OutlineYaml(out).write(prompt, proposals);
  }

  private void write(Prompt prompt, Optional<Proposals> proposals) {
    comment("", Wording.of("yaml.demands"));
    comment("", Wording.of("yaml.keep"));
    for (String doubt : Doubts.of(prompt)) {
      comment("", "look: " + doubt);
    }
    for (Remark remark : prompt.remarks()) {
      if (remark.kind() == Remark.Kind.SET_ASIDE) {
        String words = Words.oneLine(remark.span().of(prompt.text()));
        comment("", remark.message() + ": " + Words.shortened(words, WIDTH));
      }
    }
    out.println("id: " + scalar(prompt.id()));
    prompt.title().ifPresent(title -> out.println("title: " + scalar(title)));
    if (!prompt.stimulus().isBlank()) {
      text("", "stimulus", prompt.stimulus());
    }
    out.println("parts:");
    for (int i = 0; i < prompt.parts().size(); i++) {
      int place = i;
      write(prompt, prompt.parts().get(i), proposals.map(all -> all.parts().get(place)));
    }
  }

  private void write(Prompt prompt, Part part, Optional<Proposals.ForPart> proposed) {
    out.println("  - label: " + scalar(part.label()));
    text("    ", "text", part.text());
    proposed
        .map(Proposals.ForPart::modelAnswer)
        .filter(words -> !words.isBlank())
        .or(part::modelAnswer)
        .ifPresent(words -> text("    ", "model_answer", words));
    if (part.demands().isEmpty()) {
      comment("    ", Wording.of("yaml.noDemand"));
      comment("    ", "demands:");
      comment("    ", "  - kind: describe");
      return;
    }
    out.println("    demands:");
    for (int i = 0; i < part.demands().size(); i++) {
      write(prompt, part, part.demands().get(i));
      int place = i;
      proposed
          .map(all -> all.points().get(place))
          .filter(points -> !points.isEmpty())
          .ifPresent(points -> propose(part.demands().get(place), points));
    }
  }

  private void write(Prompt prompt, Part part, Demand demand) {
    comment("      ", demand.why());
    out.println("      - kind: " + demand.kind().word());
    if (!demand.about().isBlank()) {
      out.println("        about: " + scalar(demand.about()));
    }
    if (demand.count() > 1) {
      out.println("        count: " + demand.count());
    }
    if (!demand.verb().equals(demand.kind().word())) {
      out.println("        verb: " + scalar(demand.verb()));
    }
    String words = demand.span().of(prompt.text()).strip();
    if (!words.isEmpty() && !words.equals(part.text().strip()) && part.text().contains(words)) {
      out.println("        words: " + scalar(words));
    }
    if (demand.standing() == Standing.OPTIONAL) {
      out.println("        optional: true");
    } else if (demand.standing() == Standing.ALTERNATIVE) {
      out.println("        alternative: true");
    }
    if (!demand.points().isEmpty()) {
      out.println("        points:");
      demand.points().forEach(point -> out.println("          - " + phrases(point)));
    }
  }

  private void propose(Demand demand, List<Point> points) {
    comment("        ", Wording.of("yaml.points"));
    comment(
        "        ", Wording.of(demand.points().isEmpty() ? "yaml.pointsSigns" : "yaml.pointSign"));
    if (demand.points().isEmpty()) {
      out.println("        # points:");
    }
    points.forEach(point -> out.println("        #   - " + phrases(point)));
  }

  private void comment(String indent, String words) {
    out.println(indent + "# " + Words.oneLine(words).replaceAll("\\p{Cntrl}", " "));
  }

  /** Writes a text as a block, or quoted where a block cannot hold it. */
  private void text(String indent, String name, String text) {
    String stripped = text.strip();
    boolean plain =
        !stripped.isEmpty() && stripped.chars().allMatch(c -> c == '\n' || isPrintable(c));
    if (!plain) {
      out.println(indent + name + ": " + quoted(stripped));
      return;
    }
    out.println(indent + name + ": |");
    stripped.lines().forEach(line -> out.println(line.isEmpty() ? "" : indent + "  " + line));
  }

  private static String phrases(Point point) {
    return point.phrases().stream()
        .map(phrase -> phrase.contains(",") ? quoted(phrase) : scalar(phrase))
        .collect(Collectors.joining(", ", "[", "]"));
  }

  private static String scalar(String value) {
    boolean plain =
        value.matches("[A-Za-z][A-Za-z0-9 ,.'()/-]*")
            && !value.endsWith(" ")
            && !KEYWORDS.contains(value.toLowerCase(Locale.ROOT));
    return plain ? value : quoted(value);
  }

  /** Characters that YAML 1.1 lets stand in a block as they are, other than line ends. */
  private static boolean isPrintable(int c) {
    return c == '\t'
        || (c >= 0x20 && c < 0x7f)
        || (c >= 0xa0 && c <= 0xd7ff && c != 0x2028 && c != 0x2029)
        || (c >= 0xe000 && c <= 0xfffd && c != 0xfeff);
  }

  private static String quoted(String value) {
    StringBuilder quoted = new StringBuilder("\"");
    for (int i = 0; i < value.length(); i++) {
      char c = value.charAt(i);
      if (c == '"' || c == '\\') {
        quoted.append('\\').append(c);
      } else if (c == '\n') {
        quoted.append("\\n");
      } else if (isPrintable(c) && c != '\t') {
        quoted.append(c);
      } else if (Character.isHighSurrogate(c) && i + 1 < value.length()) {
        quoted.append(String.format(Locale.ROOT, "\\U%08x", value.codePointAt(i++)));
      } else {
        quoted.append(String.format(Locale.ROOT, "\\u%04x", (int) c));
      }
    }
    return quoted.append('"').toString();
  }
}

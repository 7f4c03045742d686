package everypart.analyzer.prompt;

import everypart.analyzer.prompt.CodedWording.Asked;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The parts of the prompts in files of coded answers, whose README says how they are written. */
final class CodedParts {
  private static final Pattern PART = Pattern.compile("(\\S+) \\[([^\\]]*)\\]: *(.*)");

  private CodedParts() {}

  /**
   * A part.
   *
   * @param wording its words and demands; the id is the prompt's, so a prompt is in one half
   * @param stimulus the text that all parts of the prompt refer to
   */
  record CodedPart(CodedWording wording, String stimulus) {}

  /**
   * Reads the parts of a file.
   *
   * @throws IOException when it cannot be read
   */
  static List<CodedPart> in(Path file) throws IOException {
    List<CodedPart> parts = new ArrayList<>();
    String id = "";
    String stimulus = "";
    boolean answers = false;
    for (String line : Files.readAllLines(file)) {
      Matcher part = PART.matcher(line);
      if (line.startsWith("=== ")) {
        id = line.substring(4).strip();
        stimulus = "";
        answers = false;
      } else if (line.startsWith("--- ")) {
        answers = true;
      } else if (line.startsWith("stimulus:") && !answers) {
        stimulus = line.substring(9).strip();
      } else if (!answers && part.matches()) {
        List<Asked> demands =
            Arrays.stream(part.group(2).split(";")).map(CodedWording::asked).toList();
        parts.add(new CodedPart(new CodedWording(id, demands, part.group(3).strip()), stimulus));
      }
    }
    return parts;
  }
}

package everypart.cli.report;

import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.Locale;
import java.util.Set;

/** Names of files that every system takes. */
final class FileName {
  /** Systems take 255 bytes; room is left for a number and an ending. */
  private static final int LONGEST = 100;

  /** Names that Windows keeps for devices (Microsoft, Naming Files, Paths, and Namespaces). */
  private static final Set<String> DEVICES =
      Set.of(
          "con", "prn", "aux", "nul", "conin$", "conout$", "com1", "com2", "com3", "com4", "com5",
          "com6", "com7", "com8", "com9", "com0", "lpt0", "lpt1", "lpt2", "lpt3", "lpt4", "lpt5",
          "lpt6", "lpt7", "lpt8", "lpt9");

  private FileName() {}

  /** Returns a name that is as much like an id as a file's name may be, without an ending. */
  static String of(String id) {
    StringBuilder name = new StringBuilder();
    int bytes = 0;
    for (int sign : Normalizer.normalize(id, Normalizer.Form.NFC).codePoints().toArray()) {
      boolean kept = Character.isLetterOrDigit(sign) || "._ -".indexOf(sign) >= 0;
      boolean half = sign >= Character.MIN_SURROGATE && sign <= Character.MAX_SURROGATE;
      String put = kept && !half ? Character.toString(sign) : "_";
      bytes += put.getBytes(StandardCharsets.UTF_8).length;
      if (bytes > LONGEST) {
        break;
      }
      name.append(put);
    }
    while (!name.isEmpty() && ". ".indexOf(name.charAt(name.length() - 1)) >= 0) {
      name.setCharAt(name.length() - 1, '_');
      if (name.length() < 2 || ". ".indexOf(name.charAt(name.length() - 2)) < 0) {
        break;
      }
      name.setLength(name.length() - 1);
    }
    int from = 0;
    while (from < name.length() && ". ".indexOf(name.charAt(from)) >= 0) {
      from++;
    }
    String safe = from == 0 ? name.toString() : "_" + name.substring(from);
    int dot = safe.indexOf('.');
    String stem = (dot < 0 ? safe : safe.substring(0, dot)).strip().toLowerCase(Locale.ROOT);
    return safe.isEmpty() || DEVICES.contains(stem) ? "_" + safe : safe;
  }
}

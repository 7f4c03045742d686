package everypart.cli.report;

import com.samskivert.mustache.Mustache;
import com.samskivert.mustache.Template;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;

/** Reads the templates, styles and scripts that stand beside the renderers. */
final class Templates {
  private static final String NOTHING = "'none'";

  private Templates() {}

  private static final Mustache.Compiler COMPILER =
      Mustache.compiler().withLoader(name -> new StringReader(read(name)));

  private static final Map<String, Template> COMPILED = new ConcurrentHashMap<>();

  /** The head of a page; {@code policy} is its Content-Security-Policy. */
  record Head(String title, String policy, String style) {}

  /**
   * A whole page: its head, what it shows, and its script.
   *
   * @param data what the script works on, as JSON that is safe within a page; may be empty
   * @param script may be empty
   */
  record Shell(Head head, Object page, String data, String script) {
    boolean hasScript() {
      return !script.isEmpty();
    }
  }

  /** Fills a template in; every value is escaped. */
  static String render(String name, Object page) {
    return COMPILED.computeIfAbsent(name, key -> COMPILER.compile(read(key))).execute(page);
  }

  /** Makes a page without a script. The template uses {@code head} and {@code page}. */
  static String page(String name, String title, List<String> styles, Object page) {
    return page(name, title, styles, page, "", List.of(), NOTHING);
  }

  /**
   * Makes a page. Its policy lets in these styles and scripts by their checksums and nothing else,
   * so that no text of a response can ever act as a script, were it not escaped.
   *
   * @param data JSON for the script
   * @param connect where the page may send what was changed in it, as a source of the policy
   */
  static String page(
      String name,
      String title,
      List<String> styles,
      Object page,
      String data,
      List<String> scripts,
      String connect) {
    String style = together(styles);
    String script = together(scripts);
    String policy =
        "default-src 'none'; style-src "
            + checksum(style)
            + "; script-src "
            + (script.isEmpty() ? NOTHING : checksum(script))
            + "; connect-src "
            + connect
            + "; img-src data:; base-uri 'none'; form-action 'none'";
    return render(name, new Shell(new Head(title, policy, style), page, data, script));
  }

  /** Where the data of a page begin; no escaped value can hold it. */
  private static final String DATA = "id=\"data\">";

  /** Writes data into the place that a page has for them. */
  interface Data {
    void write(Appendable out) throws IOException;
  }

  /** Writes a page that was made without data, with these in their place, piece by piece. */
  static void write(String page, Data data, Appendable out) throws IOException {
    int at = page.indexOf(DATA);
    if (at < 0) {
      throw new IllegalArgumentException("a page without a place for data");
    }
    out.append(page, 0, at + DATA.length());
    data.write(out);
    out.append(page, at + DATA.length(), page.length());
  }

  private static String together(List<String> names) {
    return names.stream().map(Templates::read).collect(Collectors.joining());
  }

  /** Returns the checksum of an element's content as a source of a Content-Security-Policy. */
  private static String checksum(String content) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(content.getBytes(StandardCharsets.UTF_8));
      return "'sha256-" + Base64.getEncoder().encodeToString(digest) + "'";
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  static String read(String name) {
    try (InputStream in = Templates.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("template " + name + " is not on the class path");
      }
      return Wording.into(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

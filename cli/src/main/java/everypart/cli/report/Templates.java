package everypart.cli.report;

import com.samskivert.mustache.Mustache;
import com.samskivert.mustache.Template;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/** Reads the templates and styles that stand beside the renderers. */
final class Templates {
  private Templates() {}

  private static final Mustache.Compiler COMPILER =
      Mustache.compiler().withLoader(name -> new StringReader(read(name)));

  private static final Map<String, Template> COMPILED = new ConcurrentHashMap<>();

  /** Fills a template in; every value is escaped. */
  static String render(String name, Object page) {
    return COMPILED.computeIfAbsent(name, key -> COMPILER.compile(read(key))).execute(page);
  }

  private static String read(String name) {
    try (InputStream in = Templates.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("template " + name + " is not on the class path");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

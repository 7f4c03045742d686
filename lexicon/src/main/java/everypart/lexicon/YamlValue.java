package everypart.lexicon;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;
import org.yaml.snakeyaml.reader.ReaderException;

/**
 * A value in a YAML file that knows its line, so that each complaint can name it.
 *
 * <p>Values are taken as they are written: {@code no} is the word "no".
 */
final class YamlValue {
  private enum NodeType {
    TEXT,
    LIST,
    MAP,
    OTHER
  }

  private final String file;
  private final int line;
  private final NodeType shape;
  private final String text;

  /** The values of a list, or the keys and values of a map by turns. */
  private final List<YamlValue> parts;

  private YamlValue(String file, int line, NodeType shape, String text, List<YamlValue> parts) {
    this.file = file;
    this.line = line;
    this.shape = shape;
    this.text = text;
    this.parts = parts;
  }

  /**
   * Reads a file.
   *
   * @throws LexiconException when it is no YAML, or empty
   */
  static YamlValue read(LexiconFile file) {
    try {
      LoaderOptions options = new LoaderOptions();
      options.setCodePointLimit(16_000_000);
      Node root = new Yaml(options).compose(new java.io.StringReader(file.text()));
      if (root == null) {
        throw new LexiconException(file.name(), 0, "the file holds no entries");
      }
      return of(file.name(), root);
    } catch (MarkedYAMLException e) {
      int line = e.getProblemMark() == null ? 0 : e.getProblemMark().getLine() + 1;
      throw new LexiconException(file.name(), line, "not valid YAML: " + e.getProblem());
    } catch (ReaderException e) {
      int end = Math.min(e.getPosition(), file.text().length());
      int line = 1 + (int) file.text().substring(0, end).chars().filter(c -> c == '\n').count();
      String sign = String.format(Locale.ROOT, "U+%04X", e.getCodePoint());
      throw new LexiconException(
          file.name(), line, "not valid YAML: it holds the control sign " + sign);
    } catch (YAMLException e) {
      throw new LexiconException(file.name(), 0, "not valid YAML: " + e.getMessage());
    }
  }

  /**
   * Returns a file that comes with the program, as the build has read it: without the parser, which
   * takes longer than all else at a start.
   */
  static YamlValue bundled(String name) {
    return bundled(YamlValue.class, name);
  }

  /** Returns a file that comes with the program, which lies beside a class. */
  static YamlValue bundled(Class<?> beside, String name) {
    try (InputStream in = beside.getResourceAsStream(name + READ)) {
      if (in == null) {
        return read(LexiconFile.bundled(beside, name));
      }
      ByteBuffer bytes = ByteBuffer.wrap(in.readAllBytes());
      String[] texts = new String[bytes.getInt()];
      for (int i = 0; i < texts.length; i++) {
        int length = bytes.getInt();
        texts[i] = new String(bytes.array(), bytes.position(), length, StandardCharsets.UTF_8);
        bytes.position(bytes.position() + length);
      }
      return kept(name, bytes, texts);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What the name of a file gets when it is kept as it was read. */
  static final String READ = ".read";

  private static YamlValue kept(String file, ByteBuffer bytes, String[] texts) {
    NodeType shape = SHAPES.get(bytes.get());
    int line = bytes.getInt();
    if (shape == NodeType.TEXT) {
      return new YamlValue(file, line, shape, texts[bytes.getInt()], List.of());
    }
    int size = bytes.getInt();
    List<YamlValue> parts = new ArrayList<>(size);
    for (int i = 0; i < size; i++) {
      parts.add(kept(file, bytes, texts));
    }
    return new YamlValue(file, line, shape, "", parts);
  }

  private static final List<NodeType> SHAPES = List.of(NodeType.values());

  /** Returns this value as it is kept: its texts, each once, then the values. */
  byte[] bytes() {
    Map<String, Integer> texts = new LinkedHashMap<>();
    ByteArrayOutputStream values = new ByteArrayOutputStream();
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    try (DataOutputStream tree = new DataOutputStream(values);
        DataOutputStream out = new DataOutputStream(all)) {
      keep(tree, texts);
      out.writeInt(texts.size());
      for (String each : texts.keySet()) {
        byte[] bytes = each.getBytes(StandardCharsets.UTF_8);
        out.writeInt(bytes.length);
        out.write(bytes);
      }
      values.writeTo(out);
    } catch (IOException e) {
      throw new UncheckedIOException("values are kept in memory; no file is written", e);
    }
    return all.toByteArray();
  }

  private void keep(DataOutputStream out, Map<String, Integer> texts) throws IOException {
    out.writeByte(SHAPES.indexOf(shape));
    out.writeInt(line);
    if (shape == NodeType.TEXT) {
      texts.putIfAbsent(text, texts.size());
      out.writeInt(texts.getOrDefault(text, 0));
    } else {
      out.writeInt(parts.size());
      for (YamlValue part : parts) {
        part.keep(out, texts);
      }
    }
  }

  private static YamlValue of(String file, Node node) {
    int line = node.getStartMark().getLine() + 1;
    if (node instanceof ScalarNode scalar) {
      return new YamlValue(file, line, NodeType.TEXT, scalar.getValue(), List.of());
    }
    List<YamlValue> parts = new ArrayList<>();
    if (node instanceof SequenceNode sequence) {
      sequence.getValue().forEach(child -> parts.add(of(file, child)));
      return new YamlValue(file, line, NodeType.LIST, "", parts);
    }
    if (node instanceof MappingNode mapping) {
      for (NodeTuple tuple : mapping.getValue()) {
        parts.add(of(file, tuple.getKeyNode()));
        parts.add(of(file, tuple.getValueNode()));
      }
      return new YamlValue(file, line, NodeType.MAP, "", parts);
    }
    return new YamlValue(file, line, NodeType.OTHER, "", parts);
  }

  /** Returns this value as Jackson's readers give it; all that is no list or map is a text. */
  JsonNode json() {
    if (shape == NodeType.LIST) {
      ArrayNode list = JsonNodeFactory.instance.arrayNode(parts.size());
      parts.forEach(part -> list.add(part.json()));
      return list;
    }
    if (shape == NodeType.MAP) {
      ObjectNode map = JsonNodeFactory.instance.objectNode();
      for (int i = 0; i < parts.size(); i += 2) {
        map.set(parts.get(i).text, parts.get(i + 1).json());
      }
      return map;
    }
    return JsonNodeFactory.instance.textNode(text);
  }

  /** Returns the name of the file. */
  String file() {
    return file;
  }

  /** Returns the line, counted from 1. */
  int line() {
    return line;
  }

  /** Makes a complaint about this value. */
  LexiconException wrong(String problem) {
    return new LexiconException(file, line(), problem);
  }

  /** Returns the text of a plain value. */
  String text() {
    if (shape == NodeType.TEXT && !text.isBlank()) {
      return text.strip();
    }
    throw wrong("a word or phrase is expected here");
  }

  /** Tells whether it is a map. */
  boolean isMap() {
    return shape == NodeType.MAP;
  }

  /** Returns the values of a list. */
  List<YamlValue> list() {
    if (shape == NodeType.LIST) {
      return List.copyOf(parts);
    }
    throw wrong("a list is expected here");
  }

  /** Returns the values of a map, in the file's order. */
  Map<String, YamlValue> map() {
    if (shape == NodeType.MAP) {
      Map<String, YamlValue> values = new LinkedHashMap<>();
      for (int i = 0; i < parts.size(); i += 2) {
        YamlValue key = parts.get(i);
        if (values.put(key.text(), parts.get(i + 1)) != null) {
          throw key.wrong("\"" + key.text() + "\" stands here twice");
        }
      }
      return values;
    }
    throw wrong("keys with values are expected here");
  }

  /** Returns the values of a map that may have no other keys than those given. */
  Map<String, YamlValue> map(Set<String> keys) {
    Map<String, YamlValue> values = map();
    List<String> others = values.keySet().stream().filter(key -> !keys.contains(key)).toList();
    if (!others.isEmpty()) {
      throw need(values, others.get(0))
          .wrong(
              "\""
                  + String.join("\", \"", others)
                  + (others.size() == 1 ? "\" is no key" : "\" are no keys")
                  + " of this list; the keys are "
                  + String.join(", ", keys.stream().sorted().toList()));
    }
    return values;
  }

  /** Returns a value that a map must have. */
  YamlValue need(Map<String, YamlValue> values, String key) {
    return Optional.ofNullable(values.get(key))
        .orElseThrow(() -> wrong("the entry lacks \"" + key + "\""));
  }
}

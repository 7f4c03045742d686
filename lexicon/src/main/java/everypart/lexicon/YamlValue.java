package everypart.lexicon;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

/**
 * A value in a YAML file that knows its line, so that each complaint can name it.
 *
 * <p>Values are taken as they are written: {@code no} is the word "no".
 */
final class YamlValue {
  private final String file;
  private final Node node;

  private YamlValue(String file, Node node) {
    this.file = file;
    this.node = node;
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
      return new YamlValue(file.name(), root);
    } catch (MarkedYAMLException e) {
      int line = e.getProblemMark() == null ? 0 : e.getProblemMark().getLine() + 1;
      throw new LexiconException(file.name(), line, "not valid YAML: " + e.getProblem());
    }
  }

  /** Returns the name of the file. */
  String file() {
    return file;
  }

  /** Returns the line, counted from 1. */
  int line() {
    return node.getStartMark().getLine() + 1;
  }

  /** Makes a complaint about this value. */
  LexiconException wrong(String problem) {
    return new LexiconException(file, line(), problem);
  }

  /** Returns the text of a plain value. */
  String text() {
    if (node instanceof ScalarNode scalar && !scalar.getValue().isBlank()) {
      return scalar.getValue().strip();
    }
    throw wrong("a word or phrase is expected here");
  }

  /** Tells whether it is a map. */
  boolean isMap() {
    return node instanceof MappingNode;
  }

  /** Returns the values of a list. */
  List<YamlValue> list() {
    if (node instanceof SequenceNode sequence) {
      List<YamlValue> values = new ArrayList<>();
      for (Node child : sequence.getValue()) {
        values.add(new YamlValue(file, child));
      }
      return values;
    }
    throw wrong("a list is expected here");
  }

  /** Returns the values of a map, in the file's order. */
  Map<String, YamlValue> map() {
    if (node instanceof MappingNode mapping) {
      Map<String, YamlValue> values = new LinkedHashMap<>();
      for (NodeTuple tuple : mapping.getValue()) {
        YamlValue key = new YamlValue(file, tuple.getKeyNode());
        if (values.put(key.text(), new YamlValue(file, tuple.getValueNode())) != null) {
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
    for (Map.Entry<String, YamlValue> entry : values.entrySet()) {
      if (!keys.contains(entry.getKey())) {
        throw entry
            .getValue()
            .wrong(
                "\""
                    + entry.getKey()
                    + "\" is no key of this list; the keys are "
                    + String.join(", ", keys.stream().sorted().toList()));
      }
    }
    return values;
  }

  /** Returns a value that a map must have. */
  YamlValue need(Map<String, YamlValue> values, String key) {
    return Optional.ofNullable(values.get(key))
        .orElseThrow(() -> wrong("the entry lacks \"" + key + "\""));
  }
}

package everypart.lexicon;

import com.fasterxml.jackson.databind.JsonNode;

/** YAML files that come with the program, as the build has kept them for a start. */
public final class KeptYaml {
  private KeptYaml() {}

  /**
   * Reads a file.
   *
   * @param beside a class of the package that the file lies in
   * @return its values; whatever is no list and no map is a text
   */
  public static JsonNode read(Class<?> beside, String name) {
    return YamlValue.bundled(beside, name).json();
  }
}

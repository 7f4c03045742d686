package everypart.analyzer.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Named numbers, in the order in which the names were first set. */
final class Values {
  private final Map<String, Integer> places = new HashMap<>();
  private final List<String> names = new ArrayList<>();
  private double[] numbers = new double[256];

  /** Sets a value; a name may be set once. */
  void set(String name, double value) {
    if (places.putIfAbsent(name, names.size()) != null) {
      throw new IllegalStateException("the feature \"" + name + "\" is set twice");
    }
    if (names.size() == numbers.length) {
      numbers = Arrays.copyOf(numbers, 2 * numbers.length);
    }
    numbers[names.size()] = value;
    names.add(name);
  }

  void set(String name, boolean value) {
    set(name, value ? 1 : 0);
  }

  /** Returns the value of a name, 0 when it was not set. */
  double get(String name) {
    Integer place = places.get(name);
    return place == null ? 0 : numbers[place];
  }

  int size() {
    return names.size();
  }

  String name(int place) {
    return names.get(place);
  }

  double number(int place) {
    return numbers[place];
  }
}

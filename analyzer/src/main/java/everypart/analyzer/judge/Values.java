package everypart.analyzer.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Named numbers, in the order in which the names were first set.
 *
 * <p>Values that are set in the same order, as they nearly always are, share their names: then a
 * name costs one comparison, and who weighs them finds its weights by place.
 */
final class Values {
  /** The names of some values, in order. Never changed once values beside the first have them. */
  static final class Names {
    private final Map<String, Integer> places = new HashMap<>();
    private final List<String> names = new ArrayList<>();

    private void add(String name) {
      if (places.putIfAbsent(name, names.size()) != null) {
        throw new IllegalStateException("the feature \"" + name + "\" is set twice");
      }
      names.add(name);
    }

    /** Returns the names before a place, to which others can be added. */
    private Names before(int end) {
      Names copy = new Names();
      names.subList(0, end).forEach(copy::add);
      return copy;
    }

    int size() {
      return names.size();
    }

    String get(int place) {
      return names.get(place);
    }
  }

  private Names names;

  /** Whether the names belong to these values alone. */
  private boolean own;

  private double[] numbers;
  private int size;

  Values() {
    this.names = new Names();
    this.own = true;
    this.numbers = new double[256];
  }

  /**
   * Makes values that expect the names of some others, in the same order.
   *
   * @param names names that are not changed any more
   */
  Values(Names names) {
    this.names = names;
    this.numbers = new double[names.size() + 1];
  }

  /** Sets a value; a name may be set once. */
  void set(String name, double value) {
    if (own || size == names.size() || !names.get(size).equals(name)) {
      if (!own) {
        names = names.before(size);
        own = true;
      }
      names.add(name);
    }
    if (size == numbers.length) {
      numbers = Arrays.copyOf(numbers, 2 * numbers.length);
    }
    numbers[size++] = value;
  }

  void set(String name, boolean value) {
    set(name, value ? 1 : 0);
  }

  /** Sets all values of others, in their order. */
  void setAll(Values others) {
    for (int i = 0; i < others.size; i++) {
      set(others.name(i), others.numbers[i]);
    }
  }

  /** Returns the value of a name, 0 when it was not set. */
  double get(String name) {
    Integer place = names.places.get(name);
    return place == null || place >= size ? 0 : numbers[place];
  }

  /** Returns the names as far as they are set, for others to share. */
  Names names() {
    if (names.size() != size) {
      names = names.before(size);
    }
    own = false;
    return names;
  }

  int size() {
    return size;
  }

  String name(int place) {
    return names.get(place);
  }

  double number(int place) {
    return numbers[place];
  }
}

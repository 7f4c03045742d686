package everypart.lexicon;

import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.concurrent.ConcurrentHashMap;

/**
 * How near two concepts are by the relations between them, read in both directions.
 *
 * <p>A step has the length of its kind of relation, and is the longer the more relations the
 * concept at its end has, since "cell" is a step from everything (the penalty of the logarithm of
 * the degree is common practice in graphs of words). Relatedness falls by half with each step of
 * length 1.
 */
final class ConceptGraph {
  /** Concepts further apart than this have relatedness 0. Chosen by eye. */
  private static final double LONGEST = 4;

  /** A concept of a hundred relations makes a step to it about twice as long. Chosen by eye. */
  private static final double PENALTY = 0.25;

  private static final int MOST_REMEMBERED = 20_000;

  private final Map<String, Map<String, Double>> steps = new HashMap<>();
  private final Map<String, Map<String, Double>> remembered = new ConcurrentHashMap<>();

  ConceptGraph(Collection<Concept> concepts) {
    for (Concept concept : concepts) {
      steps.put(concept.name(), new LinkedHashMap<>());
    }
    for (Concept concept : concepts) {
      concept
          .relations()
          .forEach((type, names) -> names.forEach(name -> add(concept.name(), name, type)));
    }
  }

  private void add(String one, String other, RelationType type) {
    Map<String, Double> from = steps.get(one);
    Map<String, Double> to = steps.get(other);
    if (from != null && to != null) {
      from.merge(other, type.length(), Math::min);
      to.merge(one, type.length(), Math::min);
    }
  }

  /** Returns how near two concepts are: 1 for the same concept, 0 where no path is short enough. */
  double relatedness(String one, String other) {
    if (one.equals(other)) {
      return steps.containsKey(one) ? 1 : 0;
    }
    Double distance = distances(one).get(other);
    return distance == null ? 0 : Math.pow(2, -distance);
  }

  private Map<String, Double> distances(String from) {
    Map<String, Double> known = remembered.get(from);
    if (known != null) {
      return known;
    }
    Map<String, Double> distances = search(from);
    if (remembered.size() < MOST_REMEMBERED) {
      remembered.put(from, distances);
    }
    return distances;
  }

  private record Reached(String name, double distance) {}

  private Map<String, Double> search(String from) {
    Map<String, Double> settled = new HashMap<>();
    PriorityQueue<Reached> open =
        new PriorityQueue<>((a, b) -> Double.compare(a.distance(), b.distance()));
    open.add(new Reached(from, 0));
    while (true) {
      Reached next = open.poll();
      if (next == null) {
        return Map.copyOf(settled);
      }
      if (settled.putIfAbsent(next.name(), next.distance()) != null) {
        continue;
      }
      Map<String, Double> out = steps.getOrDefault(next.name(), Map.of());
      double hub = next.name().equals(from) ? 1 : 1 + PENALTY * Math.log(Math.max(1, out.size()));
      for (Map.Entry<String, Double> step : out.entrySet()) {
        double distance = next.distance() + step.getValue() * hub;
        if (distance <= LONGEST && !settled.containsKey(step.getKey())) {
          open.add(new Reached(step.getKey(), distance));
        }
      }
    }
  }
}

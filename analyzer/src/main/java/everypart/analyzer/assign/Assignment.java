package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;
import java.util.List;
import java.util.Optional;

/**
 * A response with each stretch of it given to a part or to none.
 *
 * @param stretches the whole response, in reading order
 * @param remarks what was odd about the writer's labels, one sentence each
 * @param nearest for parts without text the sentence that came closest, where one shares words
 */
public record Assignment(List<Stretch> stretches, List<String> remarks, List<Nearest> nearest) {
  /** Copies the lists. */
  public Assignment {
    stretches = List.copyOf(stretches);
    remarks = List.copyOf(remarks);
    nearest = List.copyOf(nearest);
  }

  /** Returns the sentence that came closest to a part without text. */
  public Optional<Nearest> nearest(String label) {
    return nearest.stream().filter(one -> one.part().equals(label)).findFirst();
  }

  /** Returns how many stretches were placed with the help of their meaning. */
  public long byMeaning() {
    return stretches.stream().filter(Stretch::byMeaning).count();
  }

  /** Returns the sentences that answer a part, in reading order. */
  public List<Sentence> of(String label) {
    return stretches.stream()
        .filter(stretch -> stretch.part().filter(label::equals).isPresent())
        .map(Stretch::sentence)
        .toList();
  }
}

package everypart.analyzer.assign;

import everypart.analyzer.text.Sentence;
import java.util.List;

/**
 * A response with each stretch of it given to a part or to none.
 *
 * @param stretches the whole response, in reading order
 * @param remarks what was odd about the writer's labels, one sentence each
 */
public record Assignment(List<Stretch> stretches, List<String> remarks) {
  /** Copies the lists. */
  public Assignment {
    stretches = List.copyOf(stretches);
    remarks = List.copyOf(remarks);
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

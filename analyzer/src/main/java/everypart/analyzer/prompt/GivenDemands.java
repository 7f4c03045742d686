package everypart.analyzer.prompt;

import everypart.analyzer.text.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Finds for demands that a prompt's author gave the words that they stand for, among those that
 * were read from the part's wording. What the author says holds; the reading adds how it is worded.
 */
final class GivenDemands {
  private GivenDemands() {}

  /**
   * Returns the given demands with the wording of their counterparts. A demand without one keeps
   * its words, and has the set-up of its part.
   *
   * @param whole the part's wording, the words of a demand for which the author named none
   */
  static List<Demand> worded(List<Demand> given, List<Demand> read, Span whole) {
    int[] places = counterparts(given, read);
    List<Demand> worded = new ArrayList<>();
    for (int i = 0; i < given.size(); i++) {
      Demand own = given.get(i);
      if (places[i] < 0) {
        List<Span> told = read.isEmpty() ? List.of() : read.get(0).asking().setUp();
        worded.add(own.worded(own.asking().withSetUp(told)));
        continue;
      }
      Demand like = read.get(places[i]);
      boolean sameKind = like.kind() == own.kind();
      Asking asking =
          (sameKind ? like.asking() : own.asking().besides(like.asking()))
              .withOther(Optional.empty());
      boolean ownCount =
          own.asking().counted() == CountSource.AUTHOR || own.count() != like.count();
      Demand found = own.worded(ownCount ? asking.withCounted(own.asking().counted()) : asking);
      worded.add(own.span().equals(whole) ? found.at(like.span()) : found);
    }
    return worded;
  }

  /**
   * Returns for each given demand the place of the one that was read for it, -1 when there is none:
   * the longest run in order of those of the same kind, then those that stand between the same
   * neighbours; a demand behind one of its kind that was read as one shares its words.
   */
  private static int[] counterparts(List<Demand> given, List<Demand> read) {
    int[][] same = new int[given.size() + 1][read.size() + 1];
    for (int i = given.size() - 1; i >= 0; i--) {
      for (int k = read.size() - 1; k >= 0; k--) {
        same[i][k] =
            given.get(i).kind() == read.get(k).kind()
                ? same[i + 1][k + 1] + 1
                : Math.max(same[i + 1][k], same[i][k + 1]);
      }
    }
    int[] places = new int[given.size()];
    int i = 0;
    int k = 0;
    while (i < given.size()) {
      if (k < read.size() && given.get(i).kind() == read.get(k).kind()) {
        places[i++] = k++;
      } else if (k < read.size() && same[i][k + 1] >= same[i + 1][k]) {
        k++;
      } else {
        places[i++] = -1;
      }
    }
    fill(places, given, read.size());
    return places;
  }

  private static void fill(int[] places, List<Demand> given, int size) {
    for (int i = 0; i < places.length; i++) {
      if (places[i] >= 0) {
        continue;
      }
      int before = i == 0 ? -1 : places[i - 1];
      int after = i + 1;
      while (after < places.length && places[after] < 0) {
        after++;
      }
      int limit = after < places.length ? places[after] : size;
      if (before + 1 < limit) {
        places[i] = before + 1;
      } else if (i > 0 && given.get(i - 1).kind() == given.get(i).kind()) {
        places[i] = before;
      }
    }
  }
}

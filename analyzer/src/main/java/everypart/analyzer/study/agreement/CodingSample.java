package everypart.analyzer.study.agreement;

import everypart.analyzer.coverage.Verdict;
import everypart.lexicon.DemandKind;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.TreeMap;
import java.util.zip.CRC32C;

/**
 * A stratified sample of demands for people to code.
 *
 * <p>Strata are the kind of demand, whether the program calls it missing, and whether it is unsure.
 * A stratum's share of the sample goes with its size, unsure ones {@link #OVERSAMPLING} times over;
 * each demand drawn weighs its stratum's size over the number drawn from it (Horvitz DG, Thompson
 * DJ (1952) JASA 47:663-685; Lohr SL (2010) Sampling: Design and Analysis, 2nd ed., chapter 3).
 * Which demands are drawn depends on the seed and on their names, not on their order. Memory goes
 * with the sample, not with the set.
 *
 * @param <T> what is sampled
 */
public final class CodingSample<T> {
  /** How many times over an unsure verdict is drawn. */
  public static final int OVERSAMPLING = 3;

  private record Ticket<T>(long number, String name, T item) {
    static <T> Comparator<Ticket<T>> order() {
      return Comparator.comparingLong((Ticket<T> ticket) -> ticket.number())
          .thenComparing(Ticket::name);
    }
  }

  /** The lowest tickets of a stratum, and how many there were. */
  private static final class Pool<T> {
    private final PriorityQueue<Ticket<T>> lowest =
        new PriorityQueue<>(Ticket.<T>order().reversed());
    private long size;
  }

  /**
   * A demand drawn.
   *
   * @param item the demand
   * @param weight how many demands of the set it stands for
   * @param stratum the stratum it was drawn from
   */
  public record Drawn<T>(T item, double weight, Stratum stratum) {}

  private final int size;
  private final long seed;
  private final Map<Stratum, Pool<T>> pools = new TreeMap<>();

  /**
   * Makes an empty sample.
   *
   * @param size how many demands to draw
   * @throws IllegalArgumentException when it is below 1
   */
  public CodingSample(int size, long seed) {
    if (size < 1) {
      throw new IllegalArgumentException("a sample holds at least 1 demand, not " + size);
    }
    this.size = size;
    this.seed = seed;
  }

  /**
   * Offers a demand; one that the program left unchecked is not taken.
   *
   * @param name tells it from all others
   * @param unsure whether the program asks for a person's eye
   */
  public void offer(String name, DemandKind kind, Verdict verdict, boolean unsure, T item) {
    if (verdict == Verdict.UNCHECKED) {
      return;
    }
    Pool<T> pool =
        pools.computeIfAbsent(Stratum.of(kind, verdict, unsure), stratum -> new Pool<>());
    pool.size++;
    pool.lowest.add(new Ticket<>(number(name), name, item));
    if (pool.lowest.size() > size) {
      pool.lowest.remove();
    }
  }

  private long number(String name) {
    CRC32C hash = new CRC32C();
    hash.update((seed + "\n" + name).getBytes(StandardCharsets.UTF_8));
    // A checksum is linear in its input; the multiplications break that (Stafford's mix 13, as in
    // java.util.SplittableRandom).
    long mixed = hash.getValue() * 0x9E3779B97F4A7C15L;
    mixed = (mixed ^ (mixed >>> 30)) * 0xBF58476D1CE4E5B9L;
    mixed = (mixed ^ (mixed >>> 27)) * 0x94D049BB133111EBL;
    return mixed ^ (mixed >>> 31);
  }

  /** Returns the demands drawn, in an order that says nothing about their strata. */
  public List<Drawn<T>> draw() {
    Map<Stratum, Integer> shares = shares();
    record Placed<T>(Ticket<T> ticket, double weight, Stratum stratum) {}
    List<Placed<T>> placed = new ArrayList<>();
    shares.forEach(
        (stratum, share) -> {
          Pool<T> pool = pools.get(stratum);
          if (pool != null && share > 0) {
            pool.lowest.stream()
                .sorted(Ticket.order())
                .limit(share)
                .forEach(
                    ticket ->
                        placed.add(new Placed<>(ticket, (double) pool.size / share, stratum)));
          }
        });
    placed.sort(Comparator.comparing(one -> one.ticket(), Ticket.order()));
    return placed.stream()
        .map(one -> new Drawn<>(one.ticket().item(), one.weight(), one.stratum()))
        .toList();
  }

  /** Returns how many demands were offered in each stratum. */
  public Map<Stratum, Long> sizes() {
    Map<Stratum, Long> sizes = new TreeMap<>();
    pools.forEach((stratum, pool) -> sizes.put(stratum, pool.size));
    return sizes;
  }

  /** One of each stratum as far as the sample goes, then the largest unmet claim, one by one. */
  private Map<Stratum, Integer> shares() {
    Map<Stratum, Integer> shares = new TreeMap<>();
    for (int drawn = 0; drawn < size; drawn++) {
      Stratum best = null;
      double most = 0;
      for (Map.Entry<Stratum, Pool<T>> entry : pools.entrySet()) {
        int share = shares.getOrDefault(entry.getKey(), 0);
        double size = (double) entry.getValue().size;
        double claim =
            share == 0
                ? Double.POSITIVE_INFINITY
                : size * (entry.getKey().unsure() ? OVERSAMPLING : 1) / share;
        if (share < size && claim > most) {
          most = claim;
          best = entry.getKey();
        }
      }
      if (best == null) {
        break;
      }
      shares.merge(best, 1, Integer::sum);
    }
    return shares;
  }
}

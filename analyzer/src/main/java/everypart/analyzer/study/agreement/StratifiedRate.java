package everypart.analyzer.study.agreement;

import everypart.analyzer.study.statistics.ClusteredRate;
import everypart.analyzer.study.statistics.Estimate;
import everypart.analyzer.study.statistics.Level;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * How many demands of a set are missing, from people's codes on some of them and the program's
 * verdicts on all.
 *
 * <p>In each stratum the share of coded demands that people call missing stands for the whole
 * stratum: double sampling for stratification, Cochran WG (1977) Sampling Techniques, 3rd ed.,
 * section 12.2. The variance has two parts: that of the set itself, were all of it coded, with the
 * design effect of its clusters; and that of the codes within strata, which falls to nothing as the
 * whole stratum is coded. In the second a stratum's share is drawn towards that of the strata with
 * the same verdict that are as sure, which is drawn towards that of all strata with the same
 * verdict, by the weight of two demands (after Agresti A, Coull BA (1998) American Statistician
 * 52:119-126), so that a stratum whose few codes are all alike is not taken for certain; what codes
 * of one response have in common is added, unless demands were drawn each by itself. The rate is
 * that of the writers that the set comes from, as all rates of a study are, not only of the set.
 * The interval is Wilson's at the effective size, with Student's t and Satterthwaite's degrees of
 * freedom (Satterthwaite FE (1946) Biometrics Bulletin 2:110-114).
 */
final class StratifiedRate {
  private static final double DRAWN = 2;
  private static final double EVEN = 0.5;

  /** A stratum. */
  private static final class Cell {
    private double size;
    private double coded;
    private double missing;
    private boolean called;
    private boolean unsure;
  }

  private final Map<Stratum, Cell> cells = new TreeMap<>();
  private final List<Coded> codes = new ArrayList<>();

  /** A coded demand. */
  private record Coded(Stratum stratum, boolean missing, String cluster) {}

  /** Takes the sizes of strata. */
  StratifiedRate(Map<Stratum, Long> sizes) {
    sizes.forEach(
        (stratum, size) -> {
          Cell cell = new Cell();
          cell.size = size.doubleValue();
          cell.called = stratum.missing();
          cell.unsure = stratum.unsure();
          cells.put(stratum, cell);
        });
  }

  /** Adds a coded demand; one of a stratum that is not in the set changes nothing. */
  void add(Stratum stratum, boolean missing, String cluster) {
    if (cells.containsKey(stratum)) {
      codes.add(new Coded(stratum, missing, cluster));
    }
  }

  /**
   * Returns the share missing; nothing when no demand with one of the verdicts was coded.
   *
   * @param designEffect of the set's clusters, at least 1
   * @param drawn whether each demand was drawn by itself, at random from its stratum
   */
  Optional<Estimate> estimate(double designEffect, boolean drawn, Level level) {
    Map<Stratum, Cell> pooled = pooled();
    double size = cells.values().stream().mapToDouble(cell -> cell.size).sum();
    if (size == 0 || pooled.isEmpty()) {
      return Optional.empty();
    }
    for (Coded code : codes) {
      Cell cell = cell(pooled, code);
      cell.coded++;
      cell.missing += code.missing() ? 1 : 0;
    }
    List<Cell> all = distinct(pooled);
    double rate = 0;
    double within = 0;
    double satterthwaite = 0;
    for (Cell cell : all) {
      double share = cell.size / size;
      rate += share * cell.missing / cell.coded;
      List<Cell> kin = all.stream().filter(one -> one.called == cell.called).toList();
      List<Cell> near = kin.stream().filter(one -> one.unsure == cell.unsure).toList();
      double towards = towards(List.of(cell), towards(near, towards(kin, EVEN)));
      double open = Math.max(0, 1 - cell.coded / cell.size);
      double own = share * share * towards * (1 - towards) / cell.coded * open;
      within += own;
      satterthwaite += own * own / Math.max(1, cell.coded - 1);
    }
    within += drawn ? 0 : common(pooled, size);
    double whole = rate * (1 - rate) * Math.max(1, designEffect) / size;
    double variance = whole + within;
    double degrees = satterthwaite > 0 ? variance * variance / satterthwaite : size;
    return Optional.of(
        new Estimate(rate, ClusteredRate.interval(rate, variance, degrees, codes.size(), level)));
  }

  /**
   * Returns the share missing in some strata, drawn towards another by the weight of two demands.
   */
  private static double towards(List<Cell> strata, double towards) {
    double missing = strata.stream().mapToDouble(cell -> cell.missing).sum();
    double coded = strata.stream().mapToDouble(cell -> cell.coded).sum();
    return (missing + DRAWN * towards) / (coded + DRAWN);
  }

  private static List<Cell> distinct(Map<Stratum, Cell> pooled) {
    return pooled.values().stream().distinct().toList();
  }

  /** What codes of one cluster have in common beyond their own spread. */
  private double common(Map<Stratum, Cell> pooled, double size) {
    Map<String, double[]> byCluster = new HashMap<>();
    for (Coded code : codes) {
      Cell cell = cell(pooled, code);
      double part =
          cell.size / size / cell.coded * ((code.missing() ? 1 : 0) - cell.missing / cell.coded);
      double[] sums = byCluster.computeIfAbsent(code.cluster(), name -> new double[2]);
      sums[0] += part;
      sums[1] += part * part;
    }
    return Math.max(
        0, byCluster.values().stream().mapToDouble(sums -> sums[0] * sums[0] - sums[1]).sum());
  }

  private static Cell cell(Map<Stratum, Cell> pooled, Coded code) {
    Cell cell = pooled.get(code.stratum());
    if (cell == null) {
      throw new IllegalStateException("strata with codes are among those of the set");
    }
    return cell;
  }

  /**
   * Puts a stratum without codes together with those that have the same verdict and are as sure,
   * else with all of the same verdict. Empty when that does not help either.
   */
  private Map<Stratum, Cell> pooled() {
    Map<Stratum, Long> coded = new HashMap<>();
    codes.forEach(code -> coded.merge(code.stratum(), 1L, Long::sum));
    for (int step = 0; step < 3; step++) {
      int width = step;
      Map<String, Cell> together = new HashMap<>();
      Map<String, Long> counts = new HashMap<>();
      Map<Stratum, Cell> pooled = new TreeMap<>();
      cells.forEach(
          (stratum, cell) -> {
            String name =
                (width < 1 ? stratum.kind() + " " : "")
                    + (width < 2 ? stratum.unsure() + " " : "")
                    + stratum.missing();
            Cell one = together.computeIfAbsent(name, unused -> new Cell());
            one.size += cell.size;
            one.called = cell.called;
            one.unsure = cell.unsure;
            counts.merge(name, coded.getOrDefault(stratum, 0L), Long::sum);
            pooled.put(stratum, one);
          });
      if (counts.values().stream().allMatch(count -> count > 0)) {
        return pooled;
      }
    }
    return Map.of();
  }
}

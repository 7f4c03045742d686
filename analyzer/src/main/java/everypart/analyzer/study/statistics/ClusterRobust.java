package everypart.analyzer.study.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;

/**
 * A linear model with one or two coefficients over items that come in clusters: a mean, two groups,
 * or a line. Ordinary least squares; items of one cluster may resemble each other in any way, items
 * of different clusters do not.
 *
 * <p>The variance is the bias-reduced one (CR2), the degrees of freedom are Satterthwaite's: Bell
 * RM, McCaffrey DF (2002) Bias reduction in standard errors for linear regression with multi-stage
 * samples. Survey Methodology 28:169-181. The working model behind the degrees of freedom lets
 * items of a cluster be equally correlated, by as much as the residuals say: Imbens GW, Kolesar M
 * (2016) Robust standard errors in small samples: some practical advice. Review of Economics and
 * Statistics 98:701-712, section 3. Both need only sums over each cluster, so that memory goes with
 * the number of clusters. Our own: no permissive Java library has it.
 *
 * <p>Not safe for use by several threads.
 */
public final class ClusterRobust {
  /**
   * A cluster that holds more than this share of a coefficient's items leaves nothing to compare.
   */
  private static final double WHOLE = 1 - 1e-9;

  /** Sums over the items of a cluster. */
  private static final class Sums {
    private double aa;
    private double ab;
    private double bb;
    private double a;
    private double b;
    private double ay;
    private double by;
    private double y;
    private double yy;
    private double size;
  }

  private final List<Sums> clusters = new ArrayList<>();
  private Sums open = new Sums();

  /** Makes a model without items. */
  public ClusterRobust() {}

  /**
   * Adds items to the cluster that is open.
   *
   * @param a the value of the first explaining variable
   * @param b the value of the second; 0 throughout when there is one coefficient
   * @param size how many items
   * @param sum the sum of their values
   * @param squares the sum of the squares of their values; the same as {@code sum} for 0 and 1
   */
  public void items(double a, double b, long size, long sum, long squares) {
    open.aa += a * a * size;
    open.ab += a * b * size;
    open.bb += b * b * size;
    open.a += a * size;
    open.b += b * size;
    open.ay += a * sum;
    open.by += b * sum;
    open.y += sum;
    open.yy += squares;
    open.size += size;
  }

  /** Ends the cluster that is open; one without items changes nothing. */
  public void endCluster() {
    if (open.size > 0) {
      clusters.add(open);
      open = new Sums();
    }
  }

  /** Returns how many clusters have items. */
  public long clusters() {
    return clusters.size();
  }

  /** Returns whether some cluster has more than one item. */
  public boolean clustered() {
    return clusters.stream().anyMatch(cluster -> cluster.size > 1);
  }

  /** Returns the correlation of residuals within clusters, by moments, 0 to 1. */
  public double likeness() {
    return new Fit(clusters).likeness;
  }

  /**
   * A weighted sum of the coefficients.
   *
   * @param value its estimate
   * @param variance the variance of that
   * @param degreesOfFreedom of the t distribution that the estimate over its standard error follows
   * @param skewness how lopsided the estimate is over studies, as the clusters tell: the sum of
   *     their cubed contributions over that of their squared ones to the power of 3/2
   */
  public record Contrast(double value, double variance, double degreesOfFreedom, double skewness) {
    /** Returns the interval by Student's t. */
    public Estimate estimate(Level level) {
      double half = level.studentQuantile(degreesOfFreedom) * Math.sqrt(variance);
      return new Estimate(value, new Interval(value - half, value + half));
    }
  }

  /**
   * Returns {@code first} times the first coefficient plus {@code second} times the second; nothing
   * with fewer than two clusters, or where one cluster holds all there is to tell a coefficient by,
   * or where nothing varies between clusters.
   */
  public Optional<Contrast> contrast(double first, double second) {
    return new Fit(clusters).contrast(first, second);
  }

  /** A symmetric matrix of two rows. */
  private record Symmetric(double aa, double ab, double bb) {
    /** Returns the matrix with each eigenvalue replaced; one of 0 may be replaced by 0. */
    Symmetric mapped(DoubleUnaryOperator of) {
      double middle = (aa + bb) / 2;
      double reach = Math.hypot((aa - bb) / 2, ab);
      double high = of.applyAsDouble(middle + reach);
      double low = of.applyAsDouble(middle - reach);
      if (reach < 1e-300) {
        return new Symmetric(high, 0, high);
      }
      // The projection on the eigenvector of the higher one.
      double aaOfHigh = 0.5 + (aa - bb) / (4 * reach);
      double abOfHigh = ab / (2 * reach);
      double difference = high - low;
      return new Symmetric(
          low + difference * aaOfHigh, difference * abOfHigh, low + difference * (1 - aaOfHigh));
    }

    double[] times(double[] vector) {
      return new double[] {aa * vector[0] + ab * vector[1], ab * vector[0] + bb * vector[1]};
    }

    /** Returns this times another times this. */
    Symmetric around(Symmetric middle) {
      double p = aa * middle.aa + ab * middle.ab;
      double q = aa * middle.ab + ab * middle.bb;
      double r = ab * middle.aa + bb * middle.ab;
      double s = ab * middle.ab + bb * middle.bb;
      return new Symmetric(p * aa + q * ab, p * ab + q * bb, r * ab + s * bb);
    }
  }

  /** The model, fitted. */
  private static final class Fit {
    private final List<Sums> clusters;
    private final Symmetric root;
    private final double[] coefficients;
    private double likeness;

    Fit(List<Sums> clusters) {
      this.clusters = clusters;
      double[] xx = new double[3];
      double[] xy = new double[2];
      for (Sums one : clusters) {
        xx[0] += one.aa;
        xx[1] += one.ab;
        xx[2] += one.bb;
        xy[0] += one.ay;
        xy[1] += one.by;
      }
      double least = 1e-12 * (xx[0] + xx[2]);
      root =
          new Symmetric(xx[0], xx[1], xx[2])
              .mapped(value -> value > least ? 1 / Math.sqrt(value) : 0);
      coefficients = root.times(root.times(xy));
      likeness = likeness();
    }

    /** The correlation of residuals within clusters, by moments, 0 to 1. */
    private double likeness() {
      double alike = 0;
      double pairs = 0;
      double squares = 0;
      double size = 0;
      for (Sums one : clusters) {
        double sum = one.y - coefficients[0] * one.a - coefficients[1] * one.b;
        double own =
            one.yy
                - 2 * (coefficients[0] * one.ay + coefficients[1] * one.by)
                + coefficients[0] * coefficients[0] * one.aa
                + 2 * coefficients[0] * coefficients[1] * one.ab
                + coefficients[1] * coefficients[1] * one.bb;
        alike += sum * sum - own;
        pairs += one.size * (one.size - 1);
        squares += own;
        size += one.size;
      }
      return pairs > 0 && squares > 0
          ? Math.max(0, Math.min(1, alike / pairs * size / squares))
          : 0;
    }

    Optional<Contrast> contrast(double first, double second) {
      if (clusters.size() < 2) {
        return Optional.empty();
      }
      double[] along = root.times(new double[] {first, second});
      double variance = 0;
      double cubes = 0;
      Shape shape = new Shape(likeness);
      for (Sums one : clusters) {
        Symmetric leverage = root.around(new Symmetric(one.aa, one.ab, one.bb));
        double[] most = {0};
        Symmetric scale =
            leverage.mapped(
                value -> {
                  most[0] = Math.max(most[0], value);
                  return value < WHOLE ? 1 / Math.sqrt(1 - value) : 0;
                });
        if (most[0] >= WHOLE) {
          return Optional.empty();
        }
        double[] scaled = scale.times(along);
        double[] residual =
            root.times(
                new double[] {
                  one.ay - coefficients[0] * one.aa - coefficients[1] * one.ab,
                  one.by - coefficients[0] * one.ab - coefficients[1] * one.bb
                });
        double score = scaled[0] * residual[0] + scaled[1] * residual[1];
        variance += score * score;
        cubes += score * score * score;
        double[] sums = root.times(new double[] {one.a, one.b});
        shape.add(scaled, leverage.times(scaled), sums);
      }
      double degrees = shape.degreesOfFreedom();
      return variance > 1e-20 && degrees > 0
          ? Optional.of(
              new Contrast(
                  first * coefficients[0] + second * coefficients[1],
                  variance,
                  degrees,
                  cubes / Math.pow(variance, 1.5)))
          : Optional.empty();
    }
  }

  /**
   * The matrix whose quadratic form the variance is under the working model: a diagonal and four
   * columns F around a small matrix S. Satterthwaite's degrees of freedom are its squared trace
   * over the trace of its square.
   */
  private static final class Shape {
    private static final int WIDTH = 4;

    private final double likeness;
    private double diagonal;
    private double diagonalSquared;
    private final double[][] plain = new double[WIDTH][WIDTH];
    private final double[][] weighted = new double[WIDTH][WIDTH];
    private final double[][] sums = new double[2][2];

    Shape(double likeness) {
      this.likeness = likeness;
    }

    /**
     * Adds a cluster.
     *
     * @param scaled (I-G)^-1/2 t, G the cluster's leverage and t the contrast
     * @param projected G times that
     * @param ones the cluster's sums of the explaining variables, standardised
     */
    void add(double[] scaled, double[] projected, double[] ones) {
      double alpha = ones[0] * scaled[0] + ones[1] * scaled[1];
      double own = scaled[0] * projected[0] + scaled[1] * projected[1];
      double entry = (1 - likeness) * own + likeness * alpha * alpha;
      double[] row = {alpha * ones[0], alpha * ones[1], projected[0], projected[1]};
      diagonal += entry;
      diagonalSquared += entry * entry;
      for (int i = 0; i < WIDTH; i++) {
        for (int j = 0; j < WIDTH; j++) {
          plain[i][j] += row[i] * row[j];
          weighted[i][j] += entry * row[i] * row[j];
        }
      }
      for (int i = 0; i < 2; i++) {
        for (int j = 0; j < 2; j++) {
          sums[i][j] += ones[i] * ones[j];
        }
      }
    }

    double degreesOfFreedom() {
      double[][] small = new double[WIDTH][WIDTH];
      for (int i = 0; i < 2; i++) {
        small[i][i + 2] = -likeness;
        small[i + 2][i] = -likeness;
        for (int j = 0; j < 2; j++) {
          small[i + 2][j + 2] = likeness * sums[i][j] - (i == j ? 1 - likeness : 0);
        }
      }
      double[][] inner = product(small, plain);
      double trace = diagonal + trace(inner);
      double square =
          diagonalSquared + 2 * trace(product(small, weighted)) + trace(product(inner, inner));
      return square > 0 ? trace * trace / square : 0;
    }

    private static double[][] product(double[][] left, double[][] right) {
      double[][] product = new double[WIDTH][WIDTH];
      for (int i = 0; i < WIDTH; i++) {
        for (int j = 0; j < WIDTH; j++) {
          for (int k = 0; k < WIDTH; k++) {
            product[i][j] += left[i][k] * right[k][j];
          }
        }
      }
      return product;
    }

    private static double trace(double[][] matrix) {
      double trace = 0;
      for (int i = 0; i < WIDTH; i++) {
        trace += matrix[i][i];
      }
      return trace;
    }
  }
}

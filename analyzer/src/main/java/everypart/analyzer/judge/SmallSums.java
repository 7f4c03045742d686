package everypart.analyzer.judge;

/**
 * Sums of products over rows of numbers, written so that Java computes several at once: each row is
 * an array of its own, each loop has one row that it writes to and a short body.
 */
final class SmallSums {
  /** Below this e to the power of it is nought beside the others. */
  private static final float LEAST = -80;

  private SmallSums() {}

  /**
   * Adds some rows, each times a number; four at once, which halves the time.
   *
   * @param times the numbers, from the place {@code from} on
   * @param count how many numbers, and rows
   * @param row the first row
   * @param width how many numbers of each row
   */
  static void addMixed(
      float[] times, int from, int count, float[][] rows, int row, float[] out, int width) {
    int i = 0;
    for (; i + 4 <= count; i += 4) {
      addFour(
          times[from + i],
          times[from + i + 1],
          times[from + i + 2],
          times[from + i + 3],
          rows[row + i],
          rows[row + i + 1],
          rows[row + i + 2],
          rows[row + i + 3],
          out,
          width);
    }
    for (; i < count; i++) {
      addTimes(times[from + i], rows[row + i], out, width);
    }
  }

  private static void addFour(
      float p,
      float q,
      float r,
      float s,
      float[] a,
      float[] b,
      float[] c,
      float[] d,
      float[] out,
      int width) {
    for (int j = 0; j < width; j++) {
      out[j] += (p * a[j] + q * b[j]) + (r * c[j] + s * d[j]);
    }
  }

  static void addTimes(float times, float[] row, float[] out, int width) {
    for (int j = 0; j < width; j++) {
      out[j] += times * row[j];
    }
  }

  static void add(float[] row, float[] out, int width) {
    for (int j = 0; j < width; j++) {
      out[j] += row[j];
    }
  }

  static float[] sum(float[] row, float[] other) {
    float[] sum = row.clone();
    add(other, sum, sum.length);
    return sum;
  }

  static void multiply(float[] by, float[] out, int width) {
    for (int j = 0; j < width; j++) {
      out[j] *= by[j];
    }
  }

  static void product(float[] a, float[] b, float[] out, int width) {
    for (int j = 0; j < width; j++) {
      out[j] = a[j] * b[j];
    }
  }

  static void distance(float[] a, float[] b, float[] out, int width) {
    for (int j = 0; j < width; j++) {
      out[j] = Math.abs(a[j] - b[j]);
    }
  }

  static void raise(float[] row, float[] highest, int width) {
    for (int j = 0; j < width; j++) {
      highest[j] = Math.max(highest[j], row[j]);
    }
  }

  static void cutAtNought(float[] row, int width) {
    for (int j = 0; j < width; j++) {
      row[j] = Math.max(0, row[j]);
    }
  }

  /** Returns the sum of some numbers of a row; in four sums, which do not wait for each other. */
  static float sum(float[] row, int from, int to) {
    float a = 0;
    float b = 0;
    float c = 0;
    float d = 0;
    int j = from;
    for (; j + 4 <= to; j += 4) {
      a += row[j];
      b += row[j + 1];
      c += row[j + 2];
      d += row[j + 3];
    }
    for (; j < to; j++) {
      a += row[j];
    }
    return (a + b) + (c + d);
  }

  /** Returns the sum of the products of two rows; likewise. */
  static float inner(float[] row, float[] other, int width) {
    float a = 0;
    float b = 0;
    float c = 0;
    float d = 0;
    int j = 0;
    for (; j + 4 <= width; j += 4) {
      a += row[j] * other[j];
      b += row[j + 1] * other[j + 1];
      c += row[j + 2] * other[j + 2];
      d += row[j + 3] * other[j + 3];
    }
    for (; j < width; j++) {
      a += row[j] * other[j];
    }
    return (a + b) + (c + d);
  }

  /**
   * Raises e to each number less another, where that is not over 0: the series of a 64th of it, to
   * the 64th power. That is right to some millionths, and takes a sixth of the time of {@code
   * Math.exp}.
   */
  static void exp(float[] row, float[] less, int width) {
    for (int j = 0; j < width; j++) {
      float y = Math.max(row[j] - less[j], LEAST) / 64;
      row[j] =
          1f
              + y
                  * (1f
                      + y
                          * (1f / 2
                              + y
                                  * (1f / 6
                                      + y
                                          * (1f / 24
                                              + y
                                                  * (1f / 120
                                                      + y * (1f / 720 + y * (1f / 5040)))))));
    }
    for (int j = 0; j < width; j++) {
      float y = row[j];
      y *= y;
      y *= y;
      y *= y;
      y *= y;
      y *= y;
      row[j] = y * y;
    }
  }

  /** Returns rows for columns: {@code width} of them, also where there are no rows. */
  static float[][] turned(float[][] rows, int width) {
    float[][] turned = new float[width][rows.length];
    for (int i = 0; i < rows.length; i++) {
      for (int j = 0; j < width; j++) {
        turned[j][i] = rows[i][j];
      }
    }
    return turned;
  }

  /** Returns rows of nothing yet, those at hand where they suffice. */
  static float[][] room(float[][] rows, int count, int width) {
    if (rows.length >= count && (count == 0 || rows[0].length >= width)) {
      return rows;
    }
    int wide = Math.max(width, rows.length == 0 ? 0 : rows[0].length);
    return new float[Math.max(count, rows.length)][wide];
  }
}

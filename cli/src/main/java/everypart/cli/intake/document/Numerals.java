package everypart.cli.intake.document;

import java.util.Locale;

/** The ways in which lists are numbered. */
enum Numerals {
  DECIMAL {
    @Override
    String of(int number) {
      return String.valueOf(number);
    }
  },
  DECIMAL_ZERO {
    @Override
    String of(int number) {
      return number >= 0 && number < 10 ? "0" + number : String.valueOf(number);
    }
  },
  LOWER_LETTER {
    @Override
    String of(int number) {
      return number < 1 ? String.valueOf(number) : letters(number);
    }
  },
  UPPER_LETTER {
    @Override
    String of(int number) {
      return LOWER_LETTER.of(number).toUpperCase(Locale.ROOT);
    }
  },
  LOWER_ROMAN {
    @Override
    String of(int number) {
      return UPPER_ROMAN.of(number).toLowerCase(Locale.ROOT);
    }
  },
  UPPER_ROMAN {
    @Override
    String of(int number) {
      return number < 1 || number > 3999 ? String.valueOf(number) : roman(number);
    }
  },
  NONE {
    @Override
    String of(int number) {
      return "";
    }
  };

  private static final int[] VALUES = {1000, 900, 500, 400, 100, 90, 50, 40, 10, 9, 5, 4, 1};
  private static final String[] SIGNS = {
    "M", "CM", "D", "CD", "C", "XC", "L", "XL", "X", "IX", "V", "IV", "I"
  };

  /** Returns a number as it stands in front of an item. */
  abstract String of(int number);

  /** Returns a, b ... z, then aa, bb ... as word processors go on. */
  private static String letters(int number) {
    int times = Math.min((number - 1) / 26 + 1, 8);
    return String.valueOf((char) ('a' + (number - 1) % 26)).repeat(times);
  }

  private static String roman(int number) {
    StringBuilder out = new StringBuilder();
    int left = number;
    for (int i = 0; i < VALUES.length; i++) {
      for (; left >= VALUES[i]; left -= VALUES[i]) {
        out.append(SIGNS[i]);
      }
    }
    return out.toString();
  }
}

package org.benchstroke.commission;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.quantity.Numbers;

/**
 * A scale that instruments in the trade use, as a candidate. The list is common practice, no
 * source. Immutable.
 *
 * @param scale value = number × scale + offset
 * @param offset see scale
 * @param plain whether it is a power of ten without offset
 * @param words what it says
 */
record UsualScale(double scale, double offset, boolean plain, String words) {
  private static final int SMALLEST_POWER = -6;
  private static final int LARGEST_POWER = 3;

  /** Round numbers for full scale. */
  private static final int[] ROUND = {100, 1000, 10_000, 30_000, 32_000};

  /** Bits of a converter: full scale is its largest number, or one more. */
  private static final int[] BITS = {12, 14, 15, 16};

  /**
   * Of so many parts of the largest number, full scale is one or more less: room for over-range.
   */
  private static final int PARTS = 32;

  /** Parts that are left above full scale; 5 of 32 are 18.5 % of full scale. */
  private static final int PARTS_LEFT = 5;

  /** All that may be met for a channel. */
  static List<UsualScale> of(MapQuestion question) {
    List<UsualScale> all = new ArrayList<>();
    for (int power = SMALLEST_POWER; power <= LARGEST_POWER; power++) {
      double scale = Double.parseDouble("1e" + power);
      all.add(
          new UsualScale(
              scale, 0.0, true, "one count is " + Numbers.plain(scale) + unit(question)));
    }
    for (double[] range : ranges(question)) {
      all.add(counts(question, 0.0, 1.0, range));
      for (int count : ROUND) {
        all.add(counts(question, 0.0, count, range));
      }
      for (int bits : BITS) {
        all.addAll(bits(question, bits, range));
      }
    }
    if (question.unit().equals("%")) {
      // The loop current itself, where a position in % is wanted.
      for (int factor : new int[] {1, 10, 100, 1000, 10_000}) {
        all.add(counts(question, 4.0 * factor, 20.0 * factor, new double[] {0.0, 100.0}));
      }
    }
    all.removeIf(each -> !each.plain && all.stream().anyMatch(each::sameButPlain));
    return all;
  }

  private boolean sameButPlain(UsualScale other) {
    return other.plain && offset == 0.0 && Math.abs(scale / other.scale - 1.0) < 1e-12;
  }

  private static List<double[]> ranges(MapQuestion question) {
    List<double[]> ranges = new ArrayList<>();
    ranges.add(new double[] {question.low(), question.high()});
    switch (question.unit()) {
      case "mA" -> {
        ranges.add(new double[] {0.0, 20.0});
        ranges.add(new double[] {4.0, 20.0});
      }
      case "deg" -> ranges.add(new double[] {0.0, 360.0});
      default -> ranges.add(new double[] {0.0, 100.0});
    }
    List<double[]> different = new ArrayList<>();
    for (double[] range : ranges) {
      if (different.stream().noneMatch(d -> d[0] == range[0] && d[1] == range[1])) {
        different.add(range);
      }
    }
    return different;
  }

  private static List<UsualScale> bits(MapQuestion question, int bits, double[] range) {
    int all = 1 << bits;
    double below = all * (PARTS - PARTS_LEFT) / (double) PARTS;
    UsualScale room = counts(question, 0.0, below, range);
    String headroom = Numbers.fixed(100.0 * PARTS_LEFT / (PARTS - PARTS_LEFT), 1);
    String words = bits + " bits with " + headroom + " % headroom are " + shown(question, range);
    return List.of(
        counts(question, 0.0, all - 1.0, range),
        counts(question, 0.0, all, range),
        new UsualScale(room.scale, room.offset, false, words));
  }

  private static UsualScale counts(MapQuestion question, double from, double to, double[] range) {
    double scale = (range[1] - range[0]) / (to - from);
    return new UsualScale(
        scale,
        range[0] - scale * from,
        false,
        Numbers.plain(from) + " to " + Numbers.plain(to) + " are " + shown(question, range));
  }

  private static String shown(MapQuestion question, double[] range) {
    return Numbers.plain(range[0]) + " to " + Numbers.plain(range[1]) + unit(question);
  }

  private static String unit(MapQuestion question) {
    return question.unit().equals("deg") ? " °" : " " + question.unit();
  }
}

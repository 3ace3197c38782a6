package org.benchstroke.core.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.benchstroke.core.quantity.Numbers;

/**
 * The turns of a held position that were not counted because they are no larger than what noise may
 * be. Immutable.
 *
 * @param trace the position while it was held
 * @param noise of the position at rest
 * @param threshold what counted as motion, %
 * @param turns how many were counted
 * @param swing how far it went between two of them, in the mean, %
 * @param timed its passages between them, where they are known
 */
record UnseenTurns(
    Trace trace,
    PositionNoise noise,
    double threshold,
    int turns,
    double swing,
    List<Turns.Crossing> timed) {
  /** Noise takes no swing below the threshold that is so many times as large. Our own choice. */
  private static final double CLEAR = 2.0;

  /** With fewer passages no usual time between two is known. */
  private static final int FEWEST = 5;

  /** Of so large a share passed over the shorter ways are no longer whole. Our own choice. */
  private static final double FEW = 0.3;

  /** A position that scatters by so much more than its noise moves. Our own choice. */
  private static final double MORE_THAN_NOISE = 1.3;

  /** A hold is looked at in so many parts: one that it corrects itself in is no cycle. */
  private static final int PARTS = 5;

  /** The range of a triangle over its deviation. */
  private static final double RANGE = Math.sqrt(12.0);

  /**
   * How many turns may have been passed over between those that were counted. A swing that falls
   * short takes its two turns with it, and the way over them is three ways long: by the time that
   * the shorter ways take there was room for more.
   */
  int passedOver() {
    if (timed.size() < FEWEST || swing > CLEAR * threshold) {
      return 0;
    }
    double over = 0.0;
    for (int kind = 0; kind < 2; kind++) {
      List<Double> ways = ways(kind).stream().sorted().toList();
      double usual = ways.get(ways.size() / 4);
      over += ways.stream().mapToDouble(way -> way / usual - 1.0).sum();
    }
    return (int) Math.ceil(Math.max(0.0, over));
  }

  private List<Double> ways(int kind) {
    List<Double> ways = new ArrayList<>();
    for (int i = kind; i + 1 < timed.size(); i += 2) {
      ways.add(timed.get(i + 1).seconds() - timed.get(i).seconds());
    }
    return ways;
  }

  /**
   * Why it isn't known how often it turned; empty if it is.
   *
   * @param leastPercent motion of less than this does not matter, %
   */
  Optional<String> hidden(double leastPercent) {
    boolean few = turns >= 2 && timed.size() < FEWEST && swing <= CLEAR * threshold;
    if (few || passedOver() > FEW * turns) {
      return Optional.of(
          "it goes back and forth by hardly more than the "
              + Numbers.significant(threshold, 2)
              + " % that noise may be: how often can't be determined");
    }
    double moves = turns < 2 ? beyondNoise() : 0.0;
    return moves > leastPercent
        ? Optional.of(
            "it may go back and forth by "
                + Numbers.significant(moves, 2)
                + " %, less than the "
                + Numbers.significant(threshold, 2)
                + " % that it takes to tell a turn from noise")
        : Optional.empty();
  }

  /** The range of what the position scatters by beyond its noise all through the hold, %. */
  private double beyondNoise() {
    int each = trace.size() / PARTS;
    List<Double> variances =
        IntStream.range(0, PARTS)
            .mapToObj(i -> variance(trace.slice(i * each, (i + 1) * each)))
            .sorted()
            .toList();
    double variance = variances.get(PARTS / 2);
    double own = noise.standard() * noise.standard();
    return variance > MORE_THAN_NOISE * MORE_THAN_NOISE * own
        ? RANGE * Math.sqrt(variance - own)
        : 0.0;
  }

  /** About the straight line of a creep, %². */
  private static double variance(Trace part) {
    double mean = 0.0;
    int n = part.size();
    for (int i = 0; i < n; i++) {
      mean += part.percent(i) / n;
    }
    double middle = (n - 1.0) / 2.0;
    double products = 0.0;
    double spread = 0.0;
    double around = 0.0;
    for (int i = 0; i < n; i++) {
      double off = part.percent(i) - mean;
      products += (i - middle) * off;
      spread += (i - middle) * (i - middle);
      around += off * off;
    }
    return n < 3 ? 0.0 : Math.max(0.0, around - products * products / spread) / (n - 2.0);
  }
}

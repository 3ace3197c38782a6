package org.benchstroke.core.analysis;

/**
 * The readings about one turn, and how far it can have gone between two of them. Immutable.
 *
 * @param trace the whole trace
 * @param sign 1 for an upper turn; −1 turns a lower one upside down
 * @param first index of the first reading about the turn
 * @param last index of the last
 */
record TurnReadings(Trace trace, double sign, int first, int last) {
  int size() {
    return last - first + 1;
  }

  private double level(int i) {
    return sign * trace.percent(i);
  }

  /** As a fit takes them. */
  TurnFit fit() {
    double[] seconds = new double[size()];
    double[] percent = new double[size()];
    for (int i = 0; i < size(); i++) {
      seconds[i] = trace.seconds(first + i);
      percent[i] = level(first + i);
    }
    return new TurnFit(seconds, percent);
  }

  /**
   * The least and the most that it went. Next to a turn a position slows down, stops and comes
   * back: between two readings it stays below the prolonged chords on both sides; where there is no
   * chord, below what the speed allows.
   *
   * @param speed of the unit, %/s
   */
  double[] bounds(double speed) {
    double least = Double.NEGATIVE_INFINITY;
    for (int i = first; i <= last; i++) {
      least = Math.max(least, level(i));
    }
    double most = least;
    for (int i = Math.max(0, first - 1); i <= last && i + 1 < trace.size(); i++) {
      most = Math.max(most, between(i, speed));
    }
    return new double[] {least, most};
  }

  private double between(int i, double speed) {
    double interval = trace.seconds(i + 1) - trace.seconds(i);
    if (!(interval > 0.0)) {
      return Math.max(level(i), level(i + 1));
    }
    double fastest = Math.max(speed, Math.abs(level(i + 1) - level(i)) / interval);
    double up = i - 1 >= first ? slope(i - 1) : fastest;
    double down = i + 2 <= last ? slope(i + 1) : -fastest;
    if (!(up > down)) {
      return Math.max(level(i), level(i + 1));
    }
    double meet = (level(i + 1) - level(i) - down * interval) / (up - down);
    double inside = Math.max(0.0, Math.min(interval, meet));
    double met = Math.min(level(i) + up * inside, level(i + 1) - down * (interval - inside));
    return Math.max(met, Math.max(level(i), level(i + 1)));
  }

  private double slope(int i) {
    double interval = trace.seconds(i + 1) - trace.seconds(i);
    return interval > 0.0 ? (level(i + 1) - level(i)) / interval : 0.0;
  }
}

package org.benchstroke.core.quantity;

import java.util.List;

/**
 * What a calibration certificate says of one channel: at some values what must be added to it, and
 * how well that is known. Between two points the correction runs straight; beyond the outermost it
 * stays as it is there. Immutable, safe for any thread.
 *
 * @param points with rising values, at least {@link #LEAST}
 */
public record CertifiedPoints(List<Point> points) {
  /** With fewer nothing can be said of how the error bends between them. */
  public static final int LEAST = 3;

  /**
   * One point of the certificate.
   *
   * @param at the value that the instrument shows, or is set to, in the channel's unit
   * @param correction what must be added to it to get the true value, in that unit
   * @param standard the standard uncertainty of that: the certificate's U ÷ its k, ≥ 0
   */
  public record Point(double at, double correction, double standard) {}

  public CertifiedPoints {
    points = List.copyOf(points);
    if (points.size() < LEAST) {
      throw new IllegalArgumentException("a certificate needs " + LEAST + " points");
    }
    for (int i = 1; i < points.size(); i++) {
      if (!(points.get(i).at() > points.get(i - 1).at())) {
        throw new IllegalArgumentException("the points of a certificate rise");
      }
    }
  }

  /** What must be added to a value, in the channel's unit. */
  public double correctionAt(double value) {
    Place place = place(value);
    return mixed(place, place.low().correction(), place.high().correction());
  }

  /**
   * Its standard uncertainty. What two points have in common nobody knows: between them it is that
   * of errors that are alike, the larger one.
   */
  public double standardAt(double value) {
    Place place = place(value);
    return mixed(place, place.low().standard(), place.high().standard());
  }

  /**
   * How far a curve through the points may lie from the straight lines between them: |f″|·h²/8, the
   * most by which a parabola leaves its chord (any text on linear interpolation), with f″ as the
   * points themselves show it where they bend most. What happens between two points only and shows
   * in none is not in it.
   */
  public double bend() {
    double most = 0.0;
    for (int i = 1; i + 1 < points.size(); i++) {
      double before = points.get(i).at() - points.get(i - 1).at();
      double after = points.get(i + 1).at() - points.get(i).at();
      double turn = slope(i) - slope(i - 1);
      double second = 2.0 * turn / (before + after);
      double widest = Math.max(before, after);
      most = Math.max(most, Math.abs(second) * widest * widest / 8.0);
    }
    return most;
  }

  /** How far a value lies beyond the outermost point, in the channel's unit; 0 within. */
  public double beyond(double value) {
    return Math.max(0.0, Math.max(first().at() - value, value - last().at()));
  }

  /** The least distance of two points, in the channel's unit. */
  public double closest() {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 1; i < points.size(); i++) {
      least = Math.min(least, points.get(i).at() - points.get(i - 1).at());
    }
    return least;
  }

  /** The distance of the outermost points, in the channel's unit. */
  public double span() {
    return last().at() - first().at();
  }

  /** The lowest point. */
  public Point first() {
    return points.get(0);
  }

  /** The highest. */
  public Point last() {
    return points.get(points.size() - 1);
  }

  private double slope(int i) {
    Point low = points.get(i);
    Point high = points.get(i + 1);
    return (high.correction() - low.correction()) / (high.at() - low.at());
  }

  /** Between which points a value lies, and what share of the way; the ends stand for beyond. */
  private record Place(Point low, Point high, double share) {}

  private Place place(double value) {
    int i = 0;
    while (i + 2 < points.size() && value > points.get(i + 1).at()) {
      i++;
    }
    Point low = points.get(i);
    Point high = points.get(i + 1);
    double share = (value - low.at()) / (high.at() - low.at());
    return new Place(low, high, Math.min(1.0, Math.max(0.0, share)));
  }

  private static double mixed(Place place, double low, double high) {
    return (1.0 - place.share()) * low + place.share() * high;
  }
}

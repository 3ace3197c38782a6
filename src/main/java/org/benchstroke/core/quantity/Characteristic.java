package org.benchstroke.core.quantity;

import java.util.List;

/**
 * How the travel that is asked for follows from the signal: f(s), both in %. Positions are never
 * clipped at the top; at the bottom a characteristic may start above closed. Immutable, safe for
 * any thread.
 *
 * <p>Source: inherent characteristics as in IEC 60534-2-4, from memory; the formulas are in the
 * types.
 */
public sealed interface Characteristic {
  /** Travel follows the signal. */
  static Characteristic linear() {
    return new Linear();
  }

  /** The travel that a signal asks for, % of travel. */
  double travelAt(double signalPercent);

  /** The signal that asks for a travel, % of signal; 0 for a travel below all that it can ask. */
  double signalAt(double travelPercent);

  /** % of travel per % of signal at a travel; the steeper side where it breaks. */
  double slopeAt(double travelPercent);

  /** The travel that it asks for at 0 % of signal, %. */
  default double lowestPercent() {
    return travelAt(0.0);
  }

  /** In words, as a report prints it. */
  String text();

  /** f(s) = s. */
  record Linear() implements Characteristic {
    @Override
    public double travelAt(double signalPercent) {
      return signalPercent;
    }

    @Override
    public double signalAt(double travelPercent) {
      return travelPercent;
    }

    @Override
    public double slopeAt(double travelPercent) {
      return 1.0;
    }

    @Override
    public String text() {
      return "linear";
    }
  }

  /**
   * f(s) = R^(s − 1) with s = 0..1: equal steps of signal change the travel by equal percentages of
   * itself.
   *
   * @param rangeability R, above 1: 0 % of signal asks for 100/R %
   */
  record EqualPercentage(double rangeability) implements Characteristic {
    public EqualPercentage {
      if (!(rangeability > 1.0 && Double.isFinite(rangeability))) {
        throw new IllegalArgumentException("a rangeability is above 1, not " + rangeability);
      }
    }

    @Override
    public double travelAt(double signalPercent) {
      return 100.0 * StrictMath.pow(rangeability, signalPercent / 100.0 - 1.0);
    }

    @Override
    public double signalAt(double travelPercent) {
      if (travelPercent <= lowestPercent()) {
        return 0.0;
      }
      return 100.0 * (1.0 + StrictMath.log(travelPercent / 100.0) / StrictMath.log(rangeability));
    }

    @Override
    public double slopeAt(double travelPercent) {
      return StrictMath.log(rangeability) * Math.max(travelPercent, lowestPercent()) / 100.0;
    }

    @Override
    public String text() {
      return "equal percentage, rangeability " + Numbers.plain(rangeability);
    }
  }

  /**
   * Straight between the points of a table, and beyond its ends as in the last piece.
   *
   * @param points rising in both, from 0 to 100 % of signal
   */
  record Table(List<Point> points) implements Characteristic {
    /** A signal and the travel that it asks for, both %. */
    public record Point(double signalPercent, double travelPercent) {}

    public Table {
      points = List.copyOf(points);
      if (!sound(points)) {
        throw new IllegalArgumentException(
            "a table needs two points or more, rising in signal and in travel, its signal from 0 to"
                + " 100");
      }
    }

    /** Whether these points can make a table. */
    public static boolean sound(List<Point> points) {
      boolean rising = points.size() >= 2;
      for (int i = 1; i < points.size(); i++) {
        rising &= points.get(i).signalPercent() > points.get(i - 1).signalPercent();
        rising &= points.get(i).travelPercent() > points.get(i - 1).travelPercent();
      }
      return rising
          && points.get(0).signalPercent() == 0.0
          && points.get(points.size() - 1).signalPercent() == 100.0;
    }

    @Override
    public double travelAt(double signalPercent) {
      int i = 1;
      while (i < points.size() - 1 && signalPercent > points.get(i).signalPercent()) {
        i++;
      }
      Point a = points.get(i - 1);
      return a.travelPercent() + (signalPercent - a.signalPercent()) * slope(i);
    }

    @Override
    public double signalAt(double travelPercent) {
      int i = piece(travelPercent);
      Point a = points.get(i - 1);
      return Math.max(0.0, a.signalPercent() + (travelPercent - a.travelPercent()) / slope(i));
    }

    @Override
    public double slopeAt(double travelPercent) {
      int i = piece(travelPercent);
      boolean breaks = i < points.size() - 1 && travelPercent == points.get(i).travelPercent();
      return breaks ? Math.max(slope(i), slope(i + 1)) : slope(i);
    }

    private int piece(double travelPercent) {
      int i = 1;
      while (i < points.size() - 1 && travelPercent > points.get(i).travelPercent()) {
        i++;
      }
      return i;
    }

    private double slope(int i) {
      Point a = points.get(i - 1);
      Point b = points.get(i);
      return (b.travelPercent() - a.travelPercent()) / (b.signalPercent() - a.signalPercent());
    }

    @Override
    public String text() {
      return "by a table of " + points.size() + " points";
    }
  }
}

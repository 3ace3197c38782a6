package org.benchstroke.app.stations;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;

/** The last minute of samples, numbered on and on: whoever asks says which he has. Any thread. */
final class Trail {
  private static final double SECONDS = 60.0;
  private static final int MOST = 6000;

  private final Deque<Point> points = new ArrayDeque<>();
  private long end;

  /**
   * What is new to somebody.
   *
   * @param points in order
   * @param whole whether these are all that there are, and those before them are to be forgotten
   * @param end what to ask with the next time
   */
  record Piece(List<Point> points, boolean whole, long end) {}

  synchronized void add(Point point) {
    points.addLast(point);
    end++;
    while (points.size() > MOST || points.getFirst().seconds() < point.seconds() - SECONDS) {
      points.removeFirst();
    }
  }

  /** Begins anew: another run has another time. */
  synchronized void clear() {
    points.clear();
    end++;
  }

  synchronized long end() {
    return end;
  }

  /** What came after those that somebody has; everything, where some of that is gone already. */
  synchronized Piece since(long has) {
    long first = end - points.size();
    boolean whole = has < first || has > end;
    List<Point> all = new ArrayList<>(points);
    return new Piece(whole ? all : all.subList((int) (has - first), all.size()), whole, end);
  }
}

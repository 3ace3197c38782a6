package org.benchstroke.web;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import org.benchstroke.app.stations.Bell;
import org.benchstroke.app.stations.Seen;
import org.benchstroke.app.stations.Station;

/** What goes live to a page of one station. The thread of its connection. */
final class StationFeed implements Feed {
  /** Twenty times a second is as fast as anybody sees. */
  static final long SHORTEST_MILLIS = 50;

  private final Station station;
  private final Bell bell;
  private final String screen;
  private final Optional<Station.Attendance> attendance;
  private final Deque<News> waiting = new ArrayDeque<>();
  private long version = -1;
  private long has;

  /**
   * For a browser.
   *
   * @param attends whether whoever sits at it may stop the run
   */
  StationFeed(Station station, Bell bell, String screen, boolean attends) {
    this.station = station;
    this.bell = bell;
    this.screen = screen;
    this.attendance = attends ? Optional.of(station.attend()) : Optional.empty();
  }

  @Override
  public Optional<News> next(long patienceMillis) throws InterruptedException {
    if (waiting.isEmpty()) {
      if (version >= 0) {
        bell.await(() -> false, SHORTEST_MILLIS);
      }
      bell.await(() -> station.seen().version() != version, patienceMillis);
      look();
    }
    return Optional.ofNullable(waiting.poll());
  }

  private void look() {
    Seen seen = station.seen();
    if (seen.version() == version) {
      return;
    }
    version = seen.version();
    waiting.add(new News("seen", StationJson.text(StationJson.whole(station, seen, screen))));
    Station.Fresh fresh = station.since(has);
    has = fresh.end();
    if (!fresh.points().isEmpty() || fresh.whole()) {
      waiting.add(new News("points", StationJson.text(StationJson.points(fresh))));
    }
  }

  @Override
  public void close() {
    attendance.ifPresent(Station.Attendance::close);
  }
}

package org.benchstroke.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.app.stations.Floor;
import org.benchstroke.app.stations.Seen;
import org.benchstroke.app.stations.Station;

/** What goes live to the page of all stations: those that changed. The thread of its connection. */
final class FloorFeed implements Feed {
  /** A tile is looked at, not measured by. */
  private static final long SHORTEST_MILLIS = 100;

  private final Floor floor;
  private final List<Station.Attendance> attendances;
  private final Map<String, Long> versions = new HashMap<>();

  FloorFeed(Floor floor, boolean attends) {
    this.floor = floor;
    this.attendances =
        attends ? floor.stations().stream().map(Station::attend).toList() : List.of();
  }

  @Override
  public Optional<News> next(long patienceMillis) throws InterruptedException {
    if (!versions.isEmpty()) {
      floor.bell().await(() -> false, SHORTEST_MILLIS);
    }
    if (!floor.bell().await(this::anythingNew, patienceMillis)) {
      return Optional.empty();
    }
    ArrayNode tiles = StationJson.mapper().createArrayNode();
    for (Station each : floor.stations()) {
      Seen seen = each.seen();
      if (isNew(each, seen)) {
        versions.put(each.place().letter(), seen.version());
        tiles.add(StationJson.tile(each, seen));
      }
    }
    return Optional.of(new News("tiles", StationJson.text(tiles)));
  }

  private boolean anythingNew() {
    return floor.stations().stream().anyMatch(each -> isNew(each, each.seen()));
  }

  private boolean isNew(Station station, Seen seen) {
    return versions.getOrDefault(station.place().letter(), -1L) != seen.version();
  }

  @Override
  public void close() {
    attendances.forEach(Station.Attendance::close);
  }
}

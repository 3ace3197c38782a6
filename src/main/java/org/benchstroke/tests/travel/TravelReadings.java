package org.benchstroke.tests.travel;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Truth;

/**
 * The readings at rest of a travel error test by one truth, and why others are missing.
 *
 * @param truth by what the position was known
 * @param spec the test
 * @param readings in the order in which they were taken
 * @param missing why an expected reading isn't there
 * @param others what the unit rested at elsewhere in the record, which the test did not ask for; of
 *     no cycle
 * @param repeats those of one place that was approached again and again; empty unless all are there
 */
public record TravelReadings(
    Truth truth,
    TravelError spec,
    List<RestReading> readings,
    Map<TravelError.Place, String> missing,
    List<RestReading> others,
    List<RestReading> repeats) {
  /** Of a record that holds nothing else. */
  TravelReadings(
      Truth truth,
      TravelError spec,
      List<RestReading> readings,
      Map<TravelError.Place, String> missing) {
    this(truth, spec, readings, missing, List.of(), List.of());
  }

  public TravelReadings {
    readings = List.copyOf(readings);
    missing = Map.copyOf(missing);
    others = List.copyOf(others);
    repeats = List.copyOf(repeats);
  }

  double lowest() {
    return spec.points().get(0).percent();
  }

  double highest() {
    return spec.points().get(spec.points().size() - 1).percent();
  }

  /** The readings at a point from one side, if all cycles have theirs. */
  Optional<List<RestReading>> whole(double setpointPercent, Direction direction) {
    List<RestReading> here =
        readings.stream()
            .filter(r -> r.setpointPercent() == setpointPercent && r.direction() == direction)
            .toList();
    return here.size() == spec.cycles() ? Optional.of(here) : Optional.empty();
  }

  /** Why the readings at a point from one side aren't whole, and which; empty if they are. */
  Optional<String> lacking(double setpointPercent, Direction direction) {
    return firstMissing(setpointPercent, direction)
        .map(
            place ->
                Numbers.plain(setpointPercent)
                    + " % "
                    + direction.text()
                    + (spec.cycles() > 1 ? ", cycle " + place.cycle() : "")
                    + ": "
                    + missing.get(place));
  }

  /** The same for a measure that is of that very place, and says so. */
  Optional<String> lackingThere(double setpointPercent, Direction direction) {
    return firstMissing(setpointPercent, direction).map(missing::get);
  }

  private Optional<TravelError.Place> firstMissing(double setpointPercent, Direction direction) {
    return IntStream.rangeClosed(1, spec.cycles())
        .mapToObj(cycle -> new TravelError.Place(setpointPercent, direction, cycle))
        .filter(missing::containsKey)
        .findFirst();
  }

  /** The first reason for which any reading is missing. */
  Optional<String> anyLacking() {
    return spec.places().stream()
        .map(p -> lacking(p.setpointPercent(), p.direction()))
        .flatMap(Optional::stream)
        .findFirst();
  }

  /**
   * The errors, %, of approaches to one place the same way, which a unit without scatter would have
   * alike: those of the cycles, and those that were made for this alone.
   */
  List<List<Double>> alike() {
    List<List<Double>> groups = new ArrayList<>();
    for (TravelError.Place place : spec.places()) {
      if (place.cycle() == 1 && spec.cycles() > 1) {
        whole(place.setpointPercent(), place.direction())
            .ifPresent(cycles -> groups.add(errors(cycles)));
      }
    }
    for (Direction direction : Direction.values()) {
      groups.add(errors(repeats.stream().filter(r -> r.direction() == direction).toList()));
    }
    return groups;
  }

  private static List<Double> errors(List<RestReading> readings) {
    return readings.stream().map(RestReading::errorPercent).toList();
  }
}

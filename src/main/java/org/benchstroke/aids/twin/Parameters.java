package org.benchstroke.aids.twin;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.aids.twin.TwinUnit.Motion;

/** The fitted values in the order in which a report shows them. */
record Parameters(
    Stops stops,
    Optional<Starts> starts,
    MotionFit.Result motion,
    boolean explained,
    boolean tellsPlay,
    Optional<StemSide> stem) {
  private static final String TRAVEL = "% of travel";
  private static final String SECONDS = "s";

  /** A value that is known no better than to this share of itself is none. Our choice. */
  private static final double TELLING = 0.25;

  private static final String UNEXPLAINED = "the model does not explain this run's moves";

  private static final String UNTOLD =
      "these traces don't tell: a dead band test and a step response of 10 % or more do, read more"
          + " often the faster the unit is";

  List<Parameter> all() {
    List<Parameter> all = new ArrayList<>();
    all.add(
        new Parameter(
            Twin.START,
            "Start threshold h_on",
            starts.map(Starts::threshold),
            TRAVEL,
            starts
                .map(s -> "by which changes of the signal moved it")
                .orElse("needs a dead band or a resolution test")));
    all.add(
        new Parameter(
            Twin.LEAD,
            "h_off less coast",
            Optional.of(stops.lead()),
            TRAVEL,
            "where it comes to rest before its setpoint, " + stops.rests() + " stops"));
    Motion m = motion.unit().motion();
    String traces = "fitted to " + motion.moves().size() + " traces";
    all.add(value("speed_opening", "Speed opening", m.up(), Motion.UP, "%/s", traces));
    all.add(value("speed_closing", "Speed closing", m.down(), Motion.DOWN, "%/s", traces));
    all.add(value("lag", "Lag of the feedback", m.lag(), Motion.LAG, SECONDS, traces));
    all.add(value("delay", "Delay of the start", m.delay(), Motion.DELAY, SECONDS, traces));
    all.add(
        tellsPlay
            ? value("play_inside", "Play before the sensor", m.play(), Motion.PLAY, TRAVEL, traces)
            : none(
                "play_inside", "Play before the sensor", "needs moves that turn and that go on"));
    String reference = "needs an angle reference and a travel error test of 4 points or more";
    all.add(
        stem.map(s -> found("play_outside", "Play after the sensor", s.play()))
            .orElse(none("play_outside", "Play after the sensor", reference)));
    all.add(
        stem.map(s -> found("bow", "Bow of the sensor", s.bow()))
            .orElse(none("bow", "Bow of the sensor", reference)));
    return all;
  }

  /** Of a unit that hunts. */
  static List<Parameter> of(LimitCycle cycle) {
    return List.of(
        none(Twin.START, "Start threshold h_on", "it hunts: below coast less h_off"),
        new Parameter(
            Twin.LEAD,
            "h_off less coast",
            Optional.of(cycle.lead()),
            TRAVEL,
            "half the way from turn to turn, "
                + cycle.turns()
                + " turns at "
                + cycle.holds()
                + " setpoints"));
  }

  private Parameter value(
      String key, String title, double value, int index, String unit, String note) {
    double half = motion.half().get(index);
    boolean told = half <= Math.max(fine(unit), TELLING * Math.abs(value));
    return told && explained
        ? new Parameter(key, title, Optional.of(new FittedValue(value, half)), unit, note)
        : new Parameter(key, title, Optional.empty(), unit, explained ? UNTOLD : UNEXPLAINED);
  }

  /** What is known as finely is told even where it is nothing. */
  private static double fine(String unit) {
    return unit.equals(SECONDS) ? 0.1 : unit.equals(TRAVEL) ? 0.2 : 0.0;
  }

  private static Parameter found(String key, String title, FittedValue found) {
    return new Parameter(key, title, Optional.of(found), TRAVEL, "stem against feedback");
  }

  private static Parameter none(String key, String title, String note) {
    return new Parameter(key, title, Optional.empty(), TRAVEL, note);
  }
}

package org.benchstroke.app.stations;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How a run goes, as its own events say. Immutable.
 *
 * @param test the test under way; empty before the first and after the last
 * @param state one sentence in the trade's words: "going to 75 %, upward"
 * @param setpoint in force, % of travel; empty before the first, and while there is no signal
 * @param position the last one read, % of travel; empty while none is known
 * @param stemDegrees the angle of the stem, °; empty without a reference
 * @param loopMilliamps the current that a meter sees in the loop, mA; empty without one
 * @param output what the source does
 * @param outputDetail what was read back of the safe signal; else empty
 * @param tests all tests of the plan, in order
 * @param readings that the test under way, or the last that takes any, left behind
 * @param bandPercent half the width that was agreed for a travel error, % of travel; empty without
 *     a limit
 * @param soFar what the readings say so far, and of the verdict only that; empty before the first
 * @param beyond whether one of them is beyond the limit
 * @param switches the unit's switches by their names, and whether they are made
 * @param secondsHere nominal bench time to the end of the test under way, s
 * @param secondsLeft nominal bench time to the end of the run, s
 * @param said what went wrong on the way, the newest last
 */
public record Running(
    String test,
    String state,
    OptionalDouble setpoint,
    OptionalDouble position,
    OptionalDouble stemDegrees,
    OptionalDouble loopMilliamps,
    Output output,
    String outputDetail,
    List<TestMark> tests,
    List<LeftBehind> readings,
    OptionalDouble bandPercent,
    Optional<String> soFar,
    boolean beyond,
    Map<String, Boolean> switches,
    double secondsHere,
    double secondsLeft,
    List<String> said) {
  public Running {
    tests = List.copyOf(tests);
    readings = List.copyOf(readings);
    switches = Map.copyOf(switches);
    said = List.copyOf(said);
  }

  /** The same, doing something else. */
  Running saying(String sentence) {
    return new Running(
        test,
        sentence,
        setpoint,
        position,
        stemDegrees,
        loopMilliamps,
        output,
        outputDetail,
        tests,
        readings,
        bandPercent,
        soFar,
        beyond,
        switches,
        0.0,
        0.0,
        said);
  }

  /** Before anything has happened. */
  static Running nothingYet() {
    return new Running(
        "",
        "opening the bench",
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        Output.QUIET,
        "",
        List.of(),
        List.of(),
        OptionalDouble.empty(),
        Optional.empty(),
        false,
        Map.of(),
        0.0,
        0.0,
        List.of());
  }
}

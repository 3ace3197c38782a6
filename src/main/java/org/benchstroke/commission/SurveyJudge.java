package org.benchstroke.commission;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.run.Identification;
import org.benchstroke.unit.UnitType;

/** Judges each role by what a survey saw of it: soundly answered or not, and what to do. */
final class SurveyJudge {
  /** A feedback further outside 0..100 % than this is no position. Common practice, no source. */
  private static final double OUTSIDE_PERCENT = 5.0;

  /** So many equal replies are worth a word. */
  private static final int MANY = 10;

  private final BenchFile file;
  private final Optional<UnitType> unit;
  private final Map<String, Identification> identities;
  private final Map<String, String> unreachable;
  private final double sampleSeconds;
  private final BenchClock clock;

  SurveyJudge(
      BenchFile file,
      Optional<UnitType> unit,
      Map<String, Identification> identities,
      Map<String, String> unreachable,
      double sampleSeconds,
      BenchClock clock) {
    this.file = file;
    this.unit = unit;
    this.identities = identities;
    this.unreachable = unreachable;
    this.sampleSeconds = sampleSeconds;
    this.clock = clock;
  }

  RoleVerdict judge(WatchedRole role) {
    RoleState state = role.state();
    List<String> faults = faults(role, state);
    List<String> words = new ArrayList<>(faults.isEmpty() ? List.of(sound(role, state)) : faults);
    words.addAll(notes(role, state));
    return new RoleVerdict(
        state.instrument(), state.role(), faults.isEmpty(), String.join("; ", words));
  }

  private List<String> faults(WatchedRole role, RoleState state) {
    List<String> faults = new ArrayList<>();
    Optional<Identification> identity = Optional.ofNullable(identities.get(state.instrument()));
    identity
        .filter(i -> i.outcome() == Identification.Outcome.ANOTHER)
        .ifPresent(
            i -> faults.add(i.words() + "; put the right instrument there, or correct the file"));
    if (state.errors() > 0) {
      int asked = state.errors() + state.replies();
      faults.add(state.errors() + " of " + asked + " exchanges failed: " + state.lastError());
    } else if (unreachable.containsKey(state.instrument())) {
      faults.add("it failed when it was opened: " + unreachable.get(state.instrument()));
    }
    if (role.saturated() && !nothing(role, state)) {
      faults.add(
          "a value was at the end of the channel's range: check wire, polarity and the range in"
              + " the bench file");
    }
    if (state.percent().isPresent()) {
      double percent = state.percent().getAsDouble();
      if (percent < -OUTSIDE_PERCENT || percent > 100.0 + OUTSIDE_PERCENT) {
        faults.add(
            Numbers.fixed(percent, 1)
                + " % is not a position: a dead wire, wrong polarity, or a wrong register map"
                + " (find-map works one out)");
      }
    }
    if (role.role() == Role.POSITION_TRANSMITTER && sampleSeconds > file.samplePeriodSeconds()) {
      faults.add(
          "reading position, stem and switches takes "
              + Numbers.fixed(sampleSeconds * 1000, 0)
              + " ms, but a sample is due every "
              + Numbers.fixed(file.samplePeriodSeconds() * 1000, 0)
              + " ms: raise sample_period_ms in the bench file");
    }
    return faults;
  }

  /** Nothing is sourced and nothing switched on here, so that nothing is no fault. */
  private static boolean nothing(WatchedRole role, RoleState state) {
    boolean canBe = role.role() == Role.LOOP_METER || role.role() == Role.SUPPLY_METER;
    return canBe && state.replies() > 0 && !role.flowed();
  }

  private static String sound(WatchedRole role, RoleState state) {
    if (role.mute()) {
      return "opened; nothing can be asked of it that would not act";
    }
    return state.replies()
        + " exchanges without an error, the longest took "
        + Numbers.fixed(state.longestMillis().orElse(0.0), 1)
        + " ms";
  }

  /** What is worth knowing, but no fault of the link. */
  private List<String> notes(WatchedRole role, RoleState state) {
    List<String> notes = new ArrayList<>();
    Optional.ofNullable(identities.get(state.instrument()))
        .filter(i -> i.outcome() == Identification.Outcome.CANNOT_TELL)
        .ifPresent(i -> notes.add(i.words()));
    boolean measures = file.playing(role.role()).orElseThrow().channels().containsKey(role.role());
    boolean sources = role.role() == Role.SIGNAL_SOURCE;
    if (measures && !sources && state.replies() >= MANY && state.differentReplies() == 1) {
      notes.add(
          "all replies were the same: right for a unit at rest, otherwise frozen; move it (drive)"
              + " and probe again");
    }
    if (sources && role.flowed()) {
      notes.add(
          "LIVE: "
              + state.value()
              + ", and is left so; the unit may move as soon as its motor supply is on: hands"
              + " clear; switch its output off at its panel, or start drive or a run, which set the"
              + " safe signal first");
    }
    if (nothing(role, state)) {
      notes.add(
          role.role() == Role.LOOP_METER
              ? "no current flows: right while nothing is sourced; the preflight shows whether the"
                  + " loop is sound"
              : "no voltage: right while the supply is off");
    }
    if (role.role() == Role.POSITION_TRANSMITTER && unit.isEmpty() && state.percent().isEmpty()) {
      notes.add("not judged as a position: give --unit-type");
    }
    InstrumentSpec spec = file.playing(role.role()).orElseThrow();
    spec.calibration()
        .uncovered(LocalDate.ofInstant(clock.utc(), ZoneOffset.UTC))
        .ifPresent(why -> notes.add("its certificate " + why + ": a run will be refused"));
    return notes;
  }
}

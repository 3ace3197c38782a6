package org.benchstroke.setup;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.uncertainty.Budget;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Reading;

/**
 * Watches one switch while its cam and the shaft are turned: when it changes, by what, and at which
 * angle. A change on a shaft that stands is the cam's, and what was measured before it is void. One
 * thread.
 */
final class CamWatch {
  /** The shaft counts as turned if it did so by this within that time. Own choice. */
  private static final double MOVED_DEGREES = 0.1;

  private static final long MOVED_NANOS = 1_000_000_000L;

  /** So long it says stop after the cam has made the switch. Own choice. */
  private static final long STOP_NANOS = 1_500_000_000L;

  /** How late a person says that a click was heard, s. Common practice, no source. */
  private static final double HEARD_SECONDS = 0.3;

  private final LimitSwitch which;
  private final SwitchAngle angles;
  private final double outwards;
  private final OptionalDouble target;
  private final double tolerance;
  private final boolean seesSwitch;
  private final Deque<Look> looks = new ArrayDeque<>();
  private Optional<Look> changedBefore = Optional.empty();
  private Optional<SwitchAngle.Found> trip = Optional.empty();
  private Optional<SwitchAngle.Found> reset = Optional.empty();
  private Optional<Boolean> made = Optional.empty();
  private boolean camMade;
  private boolean odd;
  private boolean tripSeen;
  private boolean resetSeen;
  private long camMadeAt = Long.MIN_VALUE / 2;
  private long changes;

  /**
   * Of one switch.
   *
   * @param target where it is to trip, °, if anybody says
   * @param tolerance how far off it may, °
   * @param seesSwitch whether an instrument watches it; else a person marks what is heard
   */
  CamWatch(
      Step.Cam cam,
      SwitchAngle angles,
      OptionalDouble target,
      double tolerance,
      boolean seesSwitch) {
    this.which = cam.which();
    this.angles = angles;
    this.outwards = cam.openEnd() ? 1.0 : -1.0;
    this.target = target;
    this.tolerance = tolerance;
    this.seesSwitch = seesSwitch;
  }

  /** Takes a look; gives what changed, as far as its angle is known by now. */
  List<Edge> seen(Look look) {
    List<Edge> edges = new ArrayList<>();
    if (changedBefore.isPresent() && look.angle().isPresent()) {
      Look at = looks.getLast();
      take(angles.between(changedBefore.get(), at, look, at.made(which).orElseThrow()), edges);
      changedBefore = Optional.empty();
    }
    Optional<Boolean> now = look.made(which);
    if (now.isPresent() && made.isPresent() && !now.get().equals(made.get())) {
      changed(look, now.get(), edges);
    }
    made = now.or(() -> made);
    keep(look);
    return edges;
  }

  private void changed(Look look, boolean now, List<Edge> edges) {
    changes++;
    boolean angle = look.angle().isPresent() && !looks.isEmpty() && lastHasBoth();
    if (!angle) {
      tripSeen = now || tripSeen;
      resetSeen = !now || resetSeen;
    } else if (range(look) >= MOVED_DEGREES) {
      changedBefore = Optional.of(looks.getLast());
    } else {
      SwitchAngle.Found found = angles.standing(look, now, true, range(look) / 2.0);
      forget();
      camMade = now;
      camMadeAt = now ? stamp(look) : camMadeAt;
      edges.add(found.edge());
    }
  }

  private boolean lastHasBoth() {
    return looks.getLast().angle().isPresent() && looks.getLast().switches().isPresent();
  }

  private void take(SwitchAngle.Found found, List<Edge> edges) {
    edges.add(found.edge());
    Look before = changedBefore.orElseThrow();
    double way =
        looks.getLast().angle().orElseThrow().value().degrees()
            - before.angle().orElseThrow().value().degrees();
    boolean outward = way * outwards > 0.0;
    odd = outward != found.edge().made();
    if (!odd && found.edge().made()) {
      trip = Optional.of(found);
    } else if (!odd) {
      reset = Optional.of(found);
    }
  }

  /** A person heard it change: first the trip, then the reset. */
  List<Edge> heard() {
    List<Edge> edges = new ArrayList<>();
    if (!looks.isEmpty() && looks.getLast().angle().isPresent()) {
      boolean first = trip.isEmpty();
      double half = Math.max(range(looks.getLast()), 0.0) * HEARD_SECONDS;
      SwitchAngle.Found found = angles.standing(looks.getLast(), first, false, half);
      changes++;
      edges.add(found.edge());
      if (first) {
        trip = Optional.of(found);
      } else {
        reset = Optional.of(found);
      }
    }
    return edges;
  }

  /** What was measured counts no more. */
  void forget() {
    trip = Optional.empty();
    reset = Optional.empty();
    changedBefore = Optional.empty();
    tripSeen = false;
    resetSeen = false;
    odd = false;
  }

  private void keep(Look look) {
    looks.addLast(look);
    while (looks.size() > 2 && stamp(look) - stamp(looks.getFirst()) > MOVED_NANOS) {
      looks.removeFirst();
    }
  }

  /** How far the shaft turned within the last second, °. */
  private double range(Look now) {
    double low = now.angle().map(a -> a.value().degrees()).orElse(0.0);
    double high = low;
    for (Look each : looks) {
      if (each.angle().isPresent()) {
        low = Math.min(low, each.angle().get().value().degrees());
        high = Math.max(high, each.angle().get().value().degrees());
      }
    }
    return high - low;
  }

  private static long stamp(Look look) {
    return look.switches()
        .map(Reading::stampNanos)
        .or(() -> look.angle().map(Reading::stampNanos))
        .orElse(0L);
  }

  Optional<SwitchAngle.Found> trip() {
    return trip;
  }

  Optional<SwitchAngle.Found> reset() {
    return reset;
  }

  OptionalDouble target() {
    return target;
  }

  /** Whether an instrument watches the switch; else a person listens. */
  boolean seesSwitch() {
    return seesSwitch;
  }

  /** How often it changed: a face sounds a tone each time. */
  long changes() {
    return changes;
  }

  /** Whether trip and reset were met, with an angle or without. */
  boolean whole() {
    return (trip.isPresent() && reset.isPresent()) || (tripSeen && resetSeen);
  }

  /** By how much it trips too early on its way out (above 0) or too late, °. */
  OptionalDouble early() {
    return trip.isPresent() && target.isPresent()
        ? OptionalDouble.of(-outwards * (trip.get().edge().degrees() - target.getAsDouble()))
        : OptionalDouble.empty();
  }

  /** The difference of trip and reset, °, inwards. */
  OptionalDouble differential() {
    return trip.isPresent() && reset.isPresent()
        ? OptionalDouble.of(
            -outwards * (reset.get().edge().degrees() - trip.get().edge().degrees()))
        : OptionalDouble.empty();
  }

  /** Whether it trips where it is to. */
  boolean placed() {
    return early().isEmpty() || Math.abs(early().getAsDouble()) <= tolerance;
  }

  Hint hint(long nowNanos, OptionalDouble degrees) {
    if (!seesSwitch) {
      return whole() ? Hint.GOOD : Hint.BY_EAR;
    }
    if (odd) {
      return Hint.ODD;
    }
    if (nowNanos - camMadeAt < STOP_NANOS) {
      return Hint.STOP;
    }
    if (whole()) {
      return placed() ? Hint.GOOD : early().getAsDouble() > 0.0 ? Hint.EARLY : Hint.LATE;
    }
    if (made.orElse(false)) {
      return Hint.BACK;
    }
    if (camMade || reset.isPresent() || resetSeen) {
      return Hint.ON;
    }
    boolean away =
        target.isPresent()
            && degrees.isPresent()
            && Math.abs(degrees.getAsDouble() - target.getAsDouble()) > tolerance / 2.0;
    return away ? Hint.TO_PLACE : Hint.CAM_ON;
  }

  static Budget lead(SwitchAngle angles, SwitchAngle.Found end, SwitchAngle.Found auxiliary) {
    return angles.difference(auxiliary, end);
  }
}

package org.benchstroke.judge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.analysis.Trace;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.Event;
import org.benchstroke.unit.UnitType;

/** Reads traces out of a record's lines, in seconds and % of travel. Immutable. */
public final class Samples {
  /** What the channel of a switch begins with. */
  public static final String SWITCH = "switch ";

  private static final double NANOS = 1.0e9;

  private static final Map<String, Role> CHANNELS =
      Map.of("position", Role.POSITION_TRANSMITTER, "stem", Role.ANGLE_REFERENCE);

  private final BenchFile bench;
  private final UnitType unit;
  private final double oldestSeconds;

  /** What must be added to what a channel read; only where a certificate says so. */
  private final Map<String, Channel> certified;

  public Samples(BenchFile bench, UnitType unit) {
    this(bench, unit, OptionalDouble.empty());
  }

  /**
   * Likewise, of a position input that gets a new value more seldom than it is read: what it shows
   * may be so much older than it was read.
   */
  Samples(BenchFile bench, UnitType unit, OptionalDouble conversionSeconds) {
    this.bench = bench;
    this.unit = unit;
    this.oldestSeconds = conversionSeconds.orElse(0.0);
    this.certified = new HashMap<>();
    CHANNELS.forEach(
        (name, role) ->
            bench
                .playing(role)
                .map(spec -> spec.channels().get(role))
                .filter(channel -> channel.certified().isPresent())
                .ifPresent(channel -> certified.put(name, channel)));
  }

  /** Seconds of the bench clock. */
  public static double seconds(long nanos) {
    return nanos / NANOS;
  }

  /** A longer pause between two samples is a gap, s. */
  public double longestPauseSeconds() {
    return unit.practice().gapPeriods() * bench.samplePeriodSeconds();
  }

  /** A faster change is impossible, %/s. */
  public double fastestPercentPerSecond() {
    return unit.practice().slewFactor() * unit.percentPerSecond();
  }

  /** The step of the position reading, %; 0 if the bench file doesn't state it. */
  public double resolutionPercent() {
    return bench.positionResolutionPercent(unit);
  }

  /** The unit's own feedback, % of travel. */
  public Trace position(Lines lines) {
    return trace("position", lines, oldestSeconds);
  }

  /** The position by the feedback or by the stem, % of travel. */
  public Trace by(Truth truth, Lines lines) {
    return truth == Truth.STEM ? stem(lines) : position(lines);
  }

  /** The positions of a window at rest. */
  public Trace atRest(Lines lines, Event.Rested rested) {
    return position(lines).between(seconds(rested.fromNanos()), seconds(rested.toNanos()));
  }

  /** The angle reference, % of travel. */
  public Trace stem(Lines lines) {
    return trace("stem", lines, 0.0);
  }

  private Trace trace(String channel, Lines lines, double oldest) {
    List<Event.Sampled> sampled = new ArrayList<>(lines.readings(channel));
    sampled.sort(Comparator.comparingDouble(Samples::stamp));
    Trace.Builder trace = Trace.builder(sampled.size());
    for (Event.Sampled s : sampled) {
      double half = seconds(s.answeredNanos() - s.askedNanos()) / 2.0 + oldest;
      trace.add(stamp(s), half, percent(s), s.saturated());
    }
    return trace.build();
  }

  private static double stamp(Event.Sampled s) {
    return seconds(s.askedNanos() + (s.answeredNanos() - s.askedNanos()) / 2);
  }

  /**
   * Where it was, in % of travel: what it read, with the correction of the instrument's certificate
   * if the bench file states one.
   */
  public double percent(Event.Sampled s) {
    double read = read(s);
    Channel channel = certified.get(s.channel());
    return channel == null
        ? read
        : read + channel.correctionAt(unit.readingAt(channel, read)) * unit.percentPer(channel);
  }

  private double read(Event.Sampled s) {
    return switch (s.unit()) {
      case "mA" ->
          100.0
              * (s.value() - unit.feedback().zero().milliamps())
              / unit.feedback().spanMilliamps();
      case "deg" -> s.value() / unit.travelDegrees() * 100.0;
      default -> s.value();
    };
  }

  /** When a switch first changed to a state between two instants, s; empty if it did not. */
  public Optional<Double> change(
      Lines lines, LimitSwitch which, boolean to, double fromSeconds, double untilSeconds) {
    return lines.readings(SWITCH + which.key()).stream()
        .filter(s -> (s.value() > 0.5) == to)
        .map(Samples::stamp)
        .filter(at -> at > fromSeconds && at <= untilSeconds)
        .findFirst();
  }

  /**
   * Whether a switch was made at an instant; empty if it wasn't read. A record holds its first
   * state and each change.
   */
  public Optional<Boolean> made(Lines lines, LimitSwitch which, double untilSeconds) {
    return lines.readings(SWITCH + which.key()).stream()
        .filter(s -> stamp(s) <= untilSeconds)
        .reduce((first, last) -> last)
        .map(s -> s.value() > 0.5);
  }
}

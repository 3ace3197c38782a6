package org.benchstroke.unit;

import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Characteristic;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.LimitSwitch;

/**
 * A kind of unit: what the order and the data sheet say of it. Everything that the trade would put
 * there is here and nowhere in the code. Immutable.
 *
 * @param name what people call it
 * @param drive what drives it
 * @param travelDegrees full travel of the stem, °
 * @param strokeSeconds nominal time for full travel, s
 * @param signal the input range as ordered; a reversed action has its zero above its full
 * @param characteristic how the travel that is asked for follows from the signal
 * @param feedback the range of the position feedback
 * @param safeSignal what the source is left at whenever a run ends
 * @param signalLoss what was ordered for the loss of the signal
 * @param deadBandPercent the unit's own dead band setting, % of travel
 * @param repeatabilityPercent two approaches to a setpoint the same way come to rest closer than
 *     this in 95 of 100 cases, % of travel, if that is stated
 * @param offSeconds the controller's pause between two motor starts, s
 * @param loopOhms the input's resistance with its wiring, Ω, where it is known
 * @param switches the angles at which its switches are set
 * @param limits the limits that were agreed
 * @param practice the numbers of bench practice in force
 * @param duty what its motor may do
 * @param procedure the procedure file by which it is tested, as its file names it, if it does
 * @param setUp what people need to know who set one up
 */
public record UnitType(
    String name,
    Drive drive,
    double travelDegrees,
    double strokeSeconds,
    SignalRange signal,
    Characteristic characteristic,
    SignalRange feedback,
    Current safeSignal,
    SignalLoss signalLoss,
    double deadBandPercent,
    OptionalDouble repeatabilityPercent,
    double offSeconds,
    OptionalDouble loopOhms,
    Map<LimitSwitch, Angle> switches,
    List<Limit> limits,
    Practice practice,
    Duty duty,
    Optional<String> procedure,
    SetUpFacts setUp) {

  /** What moves the stem. */
  public enum Drive {
    MOTOR("motor"),
    PNEUMATIC("pneumatic");

    private final String key;

    Drive(String key) {
      this.key = key;
    }

    /** The word in a unit type file. */
    public String key() {
      return key;
    }
  }

  /** Of whose set-up nothing is stated. */
  public UnitType(
      String name,
      Drive drive,
      double travelDegrees,
      double strokeSeconds,
      SignalRange signal,
      Characteristic characteristic,
      SignalRange feedback,
      Current safeSignal,
      SignalLoss signalLoss,
      double deadBandPercent,
      OptionalDouble repeatabilityPercent,
      double offSeconds,
      OptionalDouble loopOhms,
      Map<LimitSwitch, Angle> switches,
      List<Limit> limits,
      Practice practice,
      Duty duty) {
    this(
        name,
        drive,
        travelDegrees,
        strokeSeconds,
        signal,
        characteristic,
        feedback,
        safeSignal,
        signalLoss,
        deadBandPercent,
        repeatabilityPercent,
        offSeconds,
        loopOhms,
        switches,
        limits,
        practice,
        duty,
        Optional.empty(),
        SetUpFacts.UNSTATED);
  }

  /** A motorised unit whose travel follows the signal. */
  public UnitType(
      String name,
      double travelDegrees,
      double strokeSeconds,
      SignalRange signal,
      SignalRange feedback,
      Current safeSignal,
      SignalLoss signalLoss,
      double deadBandPercent,
      double offSeconds,
      OptionalDouble loopOhms,
      Map<LimitSwitch, Angle> switches,
      List<Limit> limits,
      Practice practice,
      Duty duty) {
    this(
        name,
        Drive.MOTOR,
        travelDegrees,
        strokeSeconds,
        signal,
        Characteristic.linear(),
        feedback,
        safeSignal,
        signalLoss,
        deadBandPercent,
        OptionalDouble.empty(),
        offSeconds,
        loopOhms,
        switches,
        limits,
        practice,
        duty,
        Optional.empty(),
        SetUpFacts.UNSTATED);
  }

  /**
   * What was ordered for the loss of the signal.
   *
   * @param action where the unit must go
   * @param delaySeconds the time that it may take before it moves, s
   * @param holdsMilliamps a low signal at which it must still hold its position
   * @param lostMilliamps a signal at which it must take the signal for lost
   * @param highMilliamps one above the range at which it must, too; empty if none was ordered
   */
  public record SignalLoss(
      FailAction action,
      double delaySeconds,
      Current holdsMilliamps,
      Current lostMilliamps,
      Optional<Current> highMilliamps) {

    /** Where nothing was ordered for a signal above the range. */
    public SignalLoss(
        FailAction action, double delaySeconds, Current holdsMilliamps, Current lostMilliamps) {
      this(action, delaySeconds, holdsMilliamps, lostMilliamps, Optional.empty());
    }

    /** Every current of it. */
    public Stream<Current> currents() {
      return Stream.concat(Stream.of(holdsMilliamps, lostMilliamps), highMilliamps.stream());
    }
  }

  public UnitType {
    Map<LimitSwitch, Angle> sorted = new EnumMap<>(LimitSwitch.class);
    sorted.putAll(switches);
    switches = Collections.unmodifiableMap(sorted);
    limits = List.copyOf(limits);
  }

  public Optional<Limit> limit(MeasureKind measure) {
    return limits.stream().filter(limit -> limit.measure() == measure).findFirst();
  }

  /** The current that asks for a position: the characteristic backwards, then the signal range. */
  public Current currentAt(Position position) {
    return signal.currentAt(Position.ofPercent(characteristic.signalAt(position.percent())));
  }

  /** The position that a current asks for. */
  public Position positionAt(Current current) {
    return Position.ofPercent(characteristic.travelAt(signal.positionAt(current).percent()));
  }

  /** What one mA of signal is in % of travel at a position: the source's error is so much more. */
  public double percentPerMilliampAt(Position position) {
    return signal.percentPerMilliamp() * characteristic.slopeAt(position.percent());
  }

  /** How far beyond an end of travel the signal may ask without being taken for lost, %. */
  public double beyondPercent() {
    double lowest = Math.min(signal.zero().milliamps(), signal.full().milliamps());
    double span = Math.abs(signal.spanMilliamps());
    return Math.max(0.0, (lowest - signalLoss.holdsMilliamps().milliamps()) / span * 100.0);
  }

  /** Nominal speed, % of travel per second. */
  public double percentPerSecond() {
    return 100.0 / strokeSeconds;
  }

  /** A unit that stands further from where its signal asks it to be must move, %. Our choice. */
  public double mustFollowPercent() {
    return 2.0 * deadBandPercent + 1.0;
  }

  /** Nominal travel time for a change of position, s. */
  public double travelSeconds(double changePercent) {
    return Math.abs(changePercent) / percentPerSecond();
  }

  /**
   * The quiet window of the rest rule, s: long enough for a shortest time, for a number of
   * controller off-times and for a number of samples.
   */
  public double restWindowSeconds(double samplePeriodSeconds) {
    double time =
        Math.max(practice.restWindowSeconds(), practice.restWindowOffTimes() * offSeconds);
    return Math.max(time, practice.restSamples() * samplePeriodSeconds);
  }

  /**
   * A pause that parts two motions, s: the controller does not start again within its off-time, of
   * which samples miss a part. Shorter than one and a half sample periods no pause is seen.
   */
  public double pauseSeconds(double samplePeriodSeconds) {
    return Math.max(0.7 * offSeconds, 1.5 * samplePeriodSeconds);
  }

  /** What a position or angle channel reads at a position, in its own unit. */
  public double readingAt(Channel channel, double percent) {
    return switch (channel.unit()) {
      case "mA" -> feedback.currentAt(Position.ofPercent(percent)).milliamps();
      case "deg" -> percent / 100.0 * travelDegrees;
      default -> percent;
    };
  }

  /** The size of one unit of a position or angle channel in % of travel. */
  public double percentPer(Channel channel) {
    return switch (channel.unit()) {
      case "mA" -> feedback.percentPerMilliamp();
      case "deg" -> 100.0 / travelDegrees;
      default -> 1.0;
    };
  }
}

package org.benchstroke.bench;

import java.time.LocalDate;
import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.Talk;
import org.benchstroke.io.transport.Endpoint;

/**
 * One instrument of a bench as its file describes it. Immutable.
 *
 * @param name its name on the bench
 * @param roles what it does there
 * @param talk how it is asked
 * @param endpoint where it is reached
 * @param replySeconds the longest wait for a reply, s of wall time
 * @param maker as its identity must read; empty if it can't tell
 * @param model as its identity must read
 * @param serial as its identity must read
 * @param calibration its certificate
 * @param channels what its data sheet says, for each role that measures
 * @param complianceVolts the voltage with which a source can drive the loop, V, if stated
 * @param mounting how an angle reference sits on the stem, if stated
 */
public record InstrumentSpec(
    String name,
    Set<Role> roles,
    Talk talk,
    Endpoint endpoint,
    double replySeconds,
    String maker,
    String model,
    String serial,
    Calibration calibration,
    Map<Role, Channel> channels,
    OptionalDouble complianceVolts,
    Optional<Mounting> mounting) {

  /** An instrument of whose mounting nothing is stated. */
  public InstrumentSpec(
      String name,
      Set<Role> roles,
      Talk talk,
      Endpoint endpoint,
      double replySeconds,
      String maker,
      String model,
      String serial,
      Calibration calibration,
      Map<Role, Channel> channels,
      OptionalDouble complianceVolts) {
    this(
        name,
        roles,
        talk,
        endpoint,
        replySeconds,
        maker,
        model,
        serial,
        calibration,
        channels,
        complianceVolts,
        Optional.empty());
  }

  /** The same instrument with these channels. */
  public InstrumentSpec with(Map<Role, Channel> others) {
    return new InstrumentSpec(
        name,
        roles,
        talk,
        endpoint,
        replySeconds,
        maker,
        model,
        serial,
        calibration,
        others,
        complianceVolts,
        mounting);
  }

  /**
   * Which box it is: two instruments of a bench file with one maker, model and serial are one box.
   */
  public String box() {
    return serial.isEmpty() ? name : maker + " " + model + " " + serial;
  }

  /**
   * A calibration.
   *
   * @param certificate its number
   * @param calibrated the day of it
   * @param due the last day on which the instrument may be used
   * @param holds the temperatures at which the accuracy holds, if stated
   * @param laboratory who calibrated it; empty if not stated
   * @param celsius the temperature at which it was calibrated, °C, if stated
   */
  public record Calibration(
      String certificate,
      LocalDate calibrated,
      LocalDate due,
      Optional<TemperatureRange> holds,
      String laboratory,
      OptionalDouble celsius) {

    /** A calibration whose accuracy holds wherever the bench stands. */
    public Calibration(String certificate, LocalDate calibrated, LocalDate due) {
      this(certificate, calibrated, due, Optional.empty(), "", OptionalDouble.empty());
    }

    /** Why it says nothing of a day; empty if it covers it. */
    public Optional<String> uncovered(LocalDate day) {
      if (day.isAfter(due)) {
        return Optional.of("was due on " + due);
      }
      return day.isBefore(calibrated)
          ? Optional.of("calibrated on " + calibrated + ", after " + day)
          : Optional.empty();
    }
  }

  /** Whether the figures of its certificate count in a role, and not those of its data sheet. */
  public boolean certified(Role role) {
    return Optional.ofNullable(channels.get(role)).flatMap(Channel::certified).isPresent();
  }

  /**
   * The temperatures at which what is stated of its error in a role holds: those of the data sheet,
   * or the one of the calibration; empty if not stated.
   */
  public Optional<TemperatureRange> holds(Role role) {
    if (!certified(role)) {
      return calibration.holds();
    }
    return calibration.celsius().isPresent()
        ? Optional.of(
            new TemperatureRange(
                calibration.celsius().getAsDouble(), calibration.celsius().getAsDouble()))
        : Optional.empty();
  }

  public InstrumentSpec {
    roles = Collections.unmodifiableSet(EnumSet.copyOf(roles));
    Map<Role, Channel> sorted = new EnumMap<>(Role.class);
    sorted.putAll(channels);
    channels = Collections.unmodifiableMap(sorted);
  }

  public Language speaks() {
    return talk.language();
  }

  /** Whether a person reads it and types what it shows. */
  public boolean typedIn() {
    return talk instanceof DisplaySettings;
  }

  /** How it is asked, if a driver that has such settings asks it. */
  public <T extends Talk> Optional<T> talk(Class<T> settings) {
    return Optional.of(talk).filter(settings::isInstance).map(settings::cast);
  }

  /** The identity that is expected, as people read it. */
  public String expected() {
    return String.join(" ", maker, model, "serial " + serial).strip();
  }
}

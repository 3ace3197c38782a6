package org.benchstroke.bench;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.unit.UnitType;

/**
 * A bench: its instruments and who plays which role. Immutable.
 *
 * @param name what people call it
 * @param place where it stands
 * @param samplePeriodSeconds how often the position is read, s
 * @param ambient between which temperatures it stands, if stated
 * @param simulation what is simulated, if it is no real bench
 * @param instruments the instruments, in the file's order
 * @param lines what the file calls its lines, and where each is
 * @param laboratory who tests there, if stated
 */
public record BenchFile(
    String name,
    String place,
    double samplePeriodSeconds,
    Optional<TemperatureRange> ambient,
    Optional<Simulation> simulation,
    List<InstrumentSpec> instruments,
    Map<String, Endpoint> lines,
    Optional<Laboratory> laboratory) {

  /**
   * Who tests on the bench and answers for the report.
   *
   * @param name of the laboratory or the shop
   * @param address where it is reached by mail
   */
  public record Laboratory(String name, String address) {}

  /**
   * The bench is simulated.
   *
   * @param shows what the simulated unit shows, in words
   * @param timeScale bench seconds per wall second
   * @param clock the file by which who serves it shares its time; empty if it runs on by itself
   */
  public record Simulation(String shows, double timeScale, Optional<String> clock) {}

  public BenchFile {
    instruments = List.copyOf(instruments);
    lines = Map.copyOf(lines);
  }

  /** A bench without lines, at the temperatures for which its instruments are specified. */
  public BenchFile(
      String name,
      String place,
      double samplePeriodSeconds,
      Optional<Simulation> simulation,
      List<InstrumentSpec> instruments) {
    this(
        name,
        place,
        samplePeriodSeconds,
        Optional.empty(),
        simulation,
        instruments,
        Map.of(),
        Optional.empty());
  }

  /** The same bench at these temperatures. */
  public BenchFile at(TemperatureRange temperatures) {
    return new BenchFile(
        name,
        place,
        samplePeriodSeconds,
        Optional.of(temperatures),
        simulation,
        instruments,
        lines,
        laboratory);
  }

  /** The same bench with these instruments. */
  public BenchFile with(List<InstrumentSpec> others) {
    return new BenchFile(
        name, place, samplePeriodSeconds, ambient, simulation, others, lines, laboratory);
  }

  /** The instrument that plays the role; the reader has seen to it that there is at most one. */
  public Optional<InstrumentSpec> playing(Role role) {
    return instruments.stream().filter(i -> i.roles().contains(role)).findFirst();
  }

  /** Which of these roles no instrument plays by itself, in words; empty if all are played. */
  public Optional<String> lacking(Set<Role> roles) {
    return roles.stream()
        .filter(role -> playing(role).filter(spec -> !spec.typedIn()).isEmpty())
        .sorted()
        .map(role -> "no instrument plays the role \"" + role.key() + "\"")
        .findFirst();
  }

  /** The step of the position reading, % of travel; 0 if the bench file doesn't state it. */
  public double positionResolutionPercent(UnitType unit) {
    return playing(Role.POSITION_TRANSMITTER)
        .map(InstrumentSpec::channels)
        .map(channels -> channels.get(Role.POSITION_TRANSMITTER))
        .map(channel -> channel.resolution() * unit.percentPer(channel))
        .orElse(0.0);
  }

  /** Whether the setpoint's source also reads it back: one box would then hide its own error. */
  public boolean sourceReadsItself() {
    return playing(Role.SIGNAL_SOURCE).equals(playing(Role.LOOP_METER));
  }

  /** What of its instruments' settings is worth to be told as it was understood, a line each. */
  public List<String> understood() {
    return instruments.stream()
        .flatMap(spec -> spec.talk().understood().stream().map(line -> spec.name() + ", " + line))
        .toList();
  }
}

package org.benchstroke.bench;

import java.time.LocalDate;
import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.LimitSwitch;
import org.benchstroke.instrument.Role;
import org.benchstroke.instrument.line.LineWords;
import org.benchstroke.instrument.modbus.KeepAlive;
import org.benchstroke.instrument.modbus.Register;
import org.benchstroke.instrument.modbus.SourceWiring;
import org.benchstroke.instrument.scpi.ScpiHabits;
import org.benchstroke.transport.Endpoint;

/**
 * One instrument of a bench as its file describes it. Immutable.
 *
 * @param name its name on the bench
 * @param roles what it does there
 * @param speaks its language
 * @param endpoint where it is reached
 * @param replySeconds the longest wait for a reply, s of wall time
 * @param maker as its identity must read; empty if it can't tell
 * @param model as its identity must read
 * @param serial as its identity must read
 * @param calibration its certificate
 * @param channels what its data sheet says, for each role that measures
 * @param complianceVolts the voltage with which a source can drive the loop, V, if stated
 * @param alternatingSupply whether the voltage that it measures as a supply meter alternates
 * @param modbus its registers; present exactly if it speaks Modbus
 * @param scpi in what it differs from others that speak SCPI, if stated
 * @param words what goes over its line, word for word; present exactly if it speaks "line"
 * @param readingScatter the standard deviation of one reading by eye, in the channel's unit;
 *     present exactly if its readings are typed in
 * @param lookedAt the switches that a person looks at; empty unless they are typed in
 */
public record InstrumentSpec(
    String name,
    Set<Role> roles,
    Language speaks,
    Endpoint endpoint,
    double replySeconds,
    String maker,
    String model,
    String serial,
    Calibration calibration,
    Map<Role, Channel> channels,
    OptionalDouble complianceVolts,
    boolean alternatingSupply,
    Optional<ModbusMap> modbus,
    Optional<ScpiHabits> scpi,
    Optional<LineWords> words,
    OptionalDouble readingScatter,
    List<LimitSwitch> lookedAt) {

  /** An instrument that neither speaks "line" nor is read by eye. */
  public InstrumentSpec(
      String name,
      Set<Role> roles,
      Language speaks,
      Endpoint endpoint,
      double replySeconds,
      String maker,
      String model,
      String serial,
      Calibration calibration,
      Map<Role, Channel> channels,
      OptionalDouble complianceVolts,
      Optional<ModbusMap> modbus) {
    this(
        name,
        roles,
        speaks,
        endpoint,
        replySeconds,
        maker,
        model,
        serial,
        calibration,
        channels,
        complianceVolts,
        false,
        modbus,
        Optional.empty(),
        Optional.empty(),
        OptionalDouble.empty(),
        List.of());
  }

  /** What an instrument speaks. */
  public enum Language {
    SCPI("scpi"),
    MODBUS_TCP("modbus tcp"),
    MODBUS_RTU("modbus rtu"),
    LINE("line"),
    TYPED_IN("typed in");

    private final String key;

    Language(String key) {
      this.key = key;
    }

    public String key() {
      return key;
    }

    /** Whether it is registers and bits. */
    public boolean modbus() {
      return this == MODBUS_TCP || this == MODBUS_RTU;
    }
  }

  /**
   * A calibration.
   *
   * @param certificate its number
   * @param calibrated the day of it
   * @param due the last day on which the instrument may be used
   * @param holds the temperatures at which the accuracy holds, if stated
   */
  public record Calibration(
      String certificate, LocalDate calibrated, LocalDate due, Optional<TemperatureRange> holds) {

    /** A calibration whose accuracy holds wherever the bench stands. */
    public Calibration(String certificate, LocalDate calibrated, LocalDate due) {
      this(certificate, calibrated, due, Optional.empty());
    }
  }

  /**
   * The registers of a Modbus instrument.
   *
   * @param unitId its address, 0..255 (1..247 on a line)
   * @param registers the value of each role that reads or switches one
   * @param switches the inputs that switches are wired to
   * @param serialNumber where it keeps its serial number, if anywhere
   * @param source how the signal source is written, if it plays one
   * @param keepAlive what its watchdog wants to hear, if it has one
   */
  public record ModbusMap(
      int unitId,
      Map<Role, Register> registers,
      Map<LimitSwitch, Register> switches,
      Optional<Register> serialNumber,
      SourceWiring source,
      Optional<KeepAlive> keepAlive) {
    public ModbusMap {
      registers = unmodifiable(Role.class, registers);
      switches = unmodifiable(LimitSwitch.class, switches);
    }
  }

  public InstrumentSpec {
    roles = Collections.unmodifiableSet(EnumSet.copyOf(roles));
    channels = unmodifiable(Role.class, channels);
    lookedAt = List.copyOf(lookedAt);
  }

  /** Whether a person reads it and types what it shows. */
  public boolean typedIn() {
    return speaks == Language.TYPED_IN;
  }

  /** The identity that is expected, as people read it. */
  public String expected() {
    return String.join(" ", maker, model, "serial " + serial).strip();
  }

  private static <K extends Enum<K>, V> Map<K, V> unmodifiable(Class<K> keys, Map<K, V> map) {
    Map<K, V> sorted = new EnumMap<>(keys);
    sorted.putAll(map);
    return Collections.unmodifiableMap(sorted);
  }
}

package org.benchstroke.unit;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Characteristic;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.instrument.LimitSwitch;

/** Reads unit type files. Stateless. */
public final class UnitTypeReader {
  /** The value of a unit type file's key {@code kind}. */
  public static final String KIND = "unit type";

  private static final double MOST_MILLIAMPS = 30.0;

  private UnitTypeReader() {}

  /**
   * Reads a file.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static UnitType read(Path path) throws FileMistakes {
    return read(TomlDocument.read(path));
  }

  /**
   * Reads a document that has been opened.
   *
   * @throws FileMistakes with every mistake in it
   */
  public static UnitType read(TomlDocument document) throws FileMistakes {
    document.expect(KIND);
    TomlSection root = document.root();
    String name = root.text("name");
    Optional<String> procedure = root.optionalText("procedure");
    UnitType.Drive drive =
        root.optionalChoice("drive", Words.of(UnitType.Drive.values(), UnitType.Drive::key))
            .orElse(UnitType.Drive.MOTOR);
    double travel = root.number("travel_deg", 1, 3600, "°");
    double stroke = root.number("stroke_time_s", 0.1, 3600, "s");
    TomlSection signalTable = root.section("signal");
    Characteristic characteristic = CharacteristicReader.read(signalTable);
    SignalRange signal = signal(signalTable);
    Current safe = safeSignal(root);
    SignalRange feedback = range(root.section("feedback"));
    UnitType.SignalLoss loss = signalLoss(root, signal);
    TomlSection controller = root.section("controller");
    double deadBand = controller.number("dead_band_pct", 0.01, 20, "% of travel");
    OptionalDouble repeatability =
        controller.optionalNumber("repeatability_pct", 0.001, 20, "% of travel");
    double off = controller.number("off_time_s", 0, 60, "s");
    controller.noOtherKeys();
    OptionalDouble ohms = root.optionalNumber("loop_ohm", 0, 5000, "Ω");
    Map<LimitSwitch, Angle> switches = switches(root, travel);
    List<Limit> limits =
        root.optionalSection("limits").map(UnitTypeReader::limits).orElse(List.of());
    Practice practice = root.optionalSection("practice").map(Practice::read).orElse(Practice.USUAL);
    Duty duty = root.optionalSection("duty").map(Duty::read).orElse(usual(drive));
    SetUpFacts setUp =
        root.optionalSection("set_up").map(SetUpFacts::read).orElse(SetUpFacts.UNSTATED);
    root.noOtherKeys();
    document.finish();
    return new UnitType(
        name,
        drive,
        travel,
        stroke,
        signal,
        characteristic,
        feedback,
        safe,
        loss,
        deadBand,
        repeatability,
        off,
        ohms,
        switches,
        limits,
        practice,
        duty,
        procedure,
        setUp);
  }

  /** The signal range; a reversed action swaps its ends. */
  private static SignalRange signal(TomlSection section) {
    Map<String, Boolean> actions = new LinkedHashMap<>();
    actions.put("direct", false);
    actions.put("reverse", true);
    boolean reverse = section.choice("action", actions);
    SignalRange range = range(section);
    if (range.spanMilliamps() < 0) {
      section.mistake(
          "zero_mA", "must be below full_mA; a reversed unit says action = \"reverse\"");
    }
    return reverse ? range.reversed() : range;
  }

  private static Duty usual(UnitType.Drive drive) {
    return drive == UnitType.Drive.MOTOR ? Duty.UNSTATED : Duty.NO_MOTOR;
  }

  private static SignalRange range(TomlSection section) {
    double zero = section.number("zero_mA", 0, MOST_MILLIAMPS, "mA");
    double full = section.number("full_mA", 0, MOST_MILLIAMPS, "mA");
    section.noOtherKeys();
    if (zero == full) {
      if (section.has("zero_mA") && section.has("full_mA")) {
        section.mistake("full_mA", "equals zero_mA; a range needs two different currents");
      }
      return SignalRange.FOUR_TO_TWENTY;
    }
    return SignalRange.of(zero, full);
  }

  /** No default: releasing or changing the signal may itself move a unit. */
  private static Current safeSignal(TomlSection root) {
    if (!root.has("safe_signal_mA")) {
      root.mistake(
          "safe_signal_mA",
          "HOLD: is missing, and there is no default; find out what signal leaves this unit safe"
              + " and write it in mA");
      return Current.ofMilliamps(0);
    }
    return Current.ofMilliamps(root.number("safe_signal_mA", 0, MOST_MILLIAMPS, "mA"));
  }

  private static UnitType.SignalLoss signalLoss(TomlSection root, SignalRange signal) {
    Map<String, FailAction> actions = new LinkedHashMap<>();
    for (FailAction action : FailAction.values()) {
      actions.put(action.key(), action);
    }
    Optional<TomlSection> found = root.optionalSection("signal_loss");
    if (found.isEmpty() || !found.get().has("action")) {
      root.mistake(
          "signal_loss",
          "HOLD: the fail action is missing, and there is no default; see the order and write"
              + " action = \"close\", \"open\" or \"stay\" under [signal_loss]");
      return new UnitType.SignalLoss(FailAction.STAY, 0, signal.zero(), signal.zero());
    }
    TomlSection section = found.get();
    FailAction action = section.choice("action", actions);
    double delay = section.number("delay_s", 0, 600, "s");
    double holds = section.number("holds_mA", 0, MOST_MILLIAMPS, "mA");
    double lost = section.number("lost_mA", 0, MOST_MILLIAMPS, "mA");
    OptionalDouble high = section.optionalNumber("high_mA", 20, MOST_MILLIAMPS, "mA");
    section.noOtherKeys();
    return new UnitType.SignalLoss(
        action,
        delay,
        Current.ofMilliamps(holds),
        Current.ofMilliamps(lost),
        high.isPresent() ? Optional.of(Current.ofMilliamps(high.getAsDouble())) : Optional.empty());
  }

  private static Map<LimitSwitch, Angle> switches(TomlSection root, double travel) {
    Map<LimitSwitch, Angle> switches = new EnumMap<>(LimitSwitch.class);
    root.optionalSection("switches_deg")
        .ifPresent(
            section -> {
              for (LimitSwitch each : LimitSwitch.values()) {
                section
                    .optionalNumber(each.key(), -travel, 2 * travel, "°")
                    .ifPresent(degrees -> switches.put(each, Angle.ofDegrees(degrees)));
              }
              section.noOtherKeys();
            });
    return switches;
  }

  private static List<Limit> limits(TomlSection section) {
    DecisionRule agreed = rule(section, DecisionRule.GUARD_BAND_U);
    List<Limit> limits = new ArrayList<>();
    for (MeasureKind kind : MeasureKind.values()) {
      section
          .optional(kind.key())
          .flatMap(value -> limit(section, kind, agreed))
          .ifPresent(limits::add);
    }
    section.noOtherKeys();
    return limits;
  }

  private static Optional<Limit> limit(TomlSection section, MeasureKind kind, DecisionRule agreed) {
    Object value = section.optional(kind.key()).orElseThrow();
    if (value instanceof Number) {
      double limit = section.number(kind.key(), Double.MIN_NORMAL, 1e6, kind.unit());
      OptionalDouble low = kind.symmetric() ? OptionalDouble.of(-limit) : OptionalDouble.empty();
      return Optional.of(new Limit(kind, low, OptionalDouble.of(limit), agreed));
    }
    TomlSection inner = section.section(kind.key());
    OptionalDouble low = inner.optionalNumber("min", -1e6, 1e6, kind.unit());
    OptionalDouble high = inner.optionalNumber("max", -1e6, 1e6, kind.unit());
    DecisionRule ruled = rule(inner, agreed);
    OptionalDouble width = inner.optionalNumber("guard_band", 1e-6, 1e6, kind.unit());
    DecisionRule rule = width.isPresent() ? DecisionRule.ofWidth(width.getAsDouble()) : ruled;
    inner.noOtherKeys();
    boolean none = low.isEmpty() && high.isEmpty();
    boolean crossed =
        low.isPresent() && high.isPresent() && low.getAsDouble() >= high.getAsDouble();
    if (none || crossed) {
      inner.mistake("", none ? "states no side; write min, max or both" : "min must be below max");
      return Optional.empty();
    }
    return Optional.of(new Limit(kind, low, high, rule));
  }

  private static DecisionRule rule(TomlSection section, DecisionRule otherwise) {
    Map<String, DecisionRule> rules = new LinkedHashMap<>();
    rules.put("guard band", DecisionRule.GUARD_BAND_U);
    rules.put("simple acceptance", DecisionRule.SIMPLE_ACCEPTANCE);
    Optional<DecisionRule> named = section.optionalChoice("rule", rules);
    OptionalDouble factor = section.optionalNumber("guard_factor", 0, 3, "× U");
    if (factor.isPresent()) {
      return new DecisionRule(factor.getAsDouble());
    }
    return named.orElse(otherwise);
  }
}

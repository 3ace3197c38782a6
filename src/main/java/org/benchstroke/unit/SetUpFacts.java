package org.benchstroke.unit;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;

/**
 * What people need to know of a kind of unit when they set one up, before its test. Immutable.
 *
 * @param tools what to have in hand
 * @param coupling the piece between unit and valve, and how it sits; empty if not stated
 * @param manual the maker's own page or drawing for the wiring, a file beside the unit type file
 * @param manualPlace where in it, in words; empty if not stated
 * @param poweredBoards boards that take power
 * @param signalBoards boards that take signals only
 * @param auxiliaryLeadDegrees how far before its end switch an auxiliary one trips, °; empty where
 *     the angles of both say it
 * @param switchToleranceDegrees how far from its angle a switch may trip, °
 * @param stopTurnsBack how many turns a stop is turned back once it meets
 * @param stopDegreesPerTurn what one turn of a stop is at the shaft, °, if it is known
 * @param calibrationSeconds how long the unit's own calibration usually takes, s, if it is known
 * @param heater whether the enclosure has a heater
 * @param release how the hand wheel is released so that the motor drives again; empty if not stated
 * @param software the version that the display shall show, if one was ordered
 * @param supplyVolts the supply that was ordered, V, if it is stated
 * @param mustAgree what of the display must be as ordered before any test begins
 */
public record SetUpFacts(
    List<String> tools,
    String coupling,
    Optional<String> manual,
    String manualPlace,
    List<String> poweredBoards,
    List<String> signalBoards,
    OptionalDouble auxiliaryLeadDegrees,
    double switchToleranceDegrees,
    double stopTurnsBack,
    OptionalDouble stopDegreesPerTurn,
    OptionalDouble calibrationSeconds,
    boolean heater,
    String release,
    Optional<String> software,
    OptionalDouble supplyVolts,
    Set<DisplayFact> mustAgree) {
  /** An auxiliary switch comes so much before the end switch, °. Common practice, no source. */
  public static final double USUAL_LEAD_DEGREES = 2.0;

  /** A stop is turned back so far from where it meets. Common practice, no source. */
  private static final double USUAL_TURNS_BACK = 2.0;

  /** A cam turned by hand is set so closely. Common practice, no source. */
  private static final double USUAL_TOLERANCE_DEGREES = 0.5;

  /** Where a file states nothing. */
  public static final SetUpFacts UNSTATED =
      new SetUpFacts(
          List.of(),
          "",
          Optional.empty(),
          "",
          List.of(),
          List.of(),
          OptionalDouble.empty(),
          USUAL_TOLERANCE_DEGREES,
          USUAL_TURNS_BACK,
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          false,
          "",
          Optional.empty(),
          OptionalDouble.empty(),
          Set.of());

  public SetUpFacts {
    tools = List.copyOf(tools);
    poweredBoards = List.copyOf(poweredBoards);
    signalBoards = List.copyOf(signalBoards);
    mustAgree = Set.copyOf(mustAgree);
  }

  static SetUpFacts read(TomlSection table) {
    Optional<String> manual = table.optionalText("manual");
    manual
        .filter(file -> file.contains("/") || file.contains("\\") || file.startsWith("."))
        .ifPresent(
            file ->
                table.wrong("manual", file, "the name of a file that lies beside this one, alone"));
    SetUpFacts facts =
        new SetUpFacts(
            table.optionalTexts("tools"),
            table.optionalText("coupling").orElse(""),
            manual,
            table.optionalText("manual_place").orElse(""),
            table.optionalTexts("powered_boards"),
            table.optionalTexts("signal_boards"),
            table.optionalNumber("auxiliary_lead_deg", 0.1, 45, "°"),
            table
                .optionalNumber("switch_tolerance_deg", 0.05, 10, "°")
                .orElse(USUAL_TOLERANCE_DEGREES),
            table.optionalNumber("stop_turns_back", 0, 20, "turns").orElse(USUAL_TURNS_BACK),
            table.optionalNumber("stop_deg_per_turn", 0.01, 45, "° at the shaft"),
            table.optionalNumber("calibration_s", 1, 3600, "s"),
            table.optionalChoice("heater", Map.of("yes", true, "no", false)).orElse(false),
            table.optionalText("release").orElse(""),
            table.optionalText("software"),
            table.optionalNumber("supply_V", 5, 500, "V"),
            mustAgree(table));
    table.noOtherKeys();
    return facts;
  }

  private static Set<DisplayFact> mustAgree(TomlSection table) {
    if (!table.has("must_agree")) {
      return Set.of();
    }
    Set<DisplayFact> facts = EnumSet.noneOf(DisplayFact.class);
    facts.addAll(table.choices("must_agree", Words.of(DisplayFact.values(), DisplayFact::key)));
    return facts;
  }
}

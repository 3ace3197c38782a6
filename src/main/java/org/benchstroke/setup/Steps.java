package org.benchstroke.setup;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.procedure.Caution;
import org.benchstroke.unit.SetUpFacts;
import org.benchstroke.unit.UnitType;

/**
 * The steps of a unit's set-up, by its type and by what the bench can see. The order and the usual
 * figures are common practice, no source; a unit type file overrides the figures. Immutable.
 */
public final class Steps {
  private static final double MOST_OHMS = 100_000;

  private final UnitType unit;
  private final SetUpFacts facts;
  private final Sight sight;
  private final boolean air;
  private final List<Step> steps = new ArrayList<>();

  private Steps(UnitType unit, Sight sight) {
    this.unit = unit;
    this.facts = unit.setUp();
    this.sight = sight;
    this.air = unit.drive() == UnitType.Drive.PNEUMATIC;
  }

  static List<Step> of(UnitType unit, Sight sight) {
    Steps made = new Steps(unit, sight);
    made.beforeTurning();
    made.end(false);
    made.end(true);
    made.afterTurning();
    return List.copyOf(made.steps);
  }

  private void beforeTurning() {
    inHand();
    coupling();
    mate();
    wire();
    add(
        StepKey.STOPS_OUT,
        new Step.Deed(),
        List.of(
            "Turn both stop screws out until they are clear of the travel: a stop that meets"
                + " before its switch can't be told from it."),
        List.of(Caution.STOPS_AND_CAMS),
        Picture.STOPS_OUT);
  }

  private void inHand() {
    List<String> does = new ArrayList<>();
    does.add(
        facts.tools().isEmpty()
            ? "The unit type file names no tools: have those for coupling, terminals, stops and"
                + " cams in hand."
            : "In hand: " + String.join(", ", facts.tools()) + ".");
    does.add("The order and the maker's own page lie beside the unit.");
    add(StepKey.IN_HAND, new Step.Deed(), does, List.of(Caution.SESSION), Picture.TOOLS);
  }

  private void coupling() {
    String piece =
        facts.coupling().isEmpty()
            ? "The coupling piece is the one for this valve and this unit."
            : "The coupling piece: " + facts.coupling() + ".";
    add(
        StepKey.COUPLING,
        new Step.Deed(),
        List.of(piece, "It is clean, not worn, and sits to its full depth on both sides."),
        air ? List.of(Caution.SPRING) : List.of(),
        Picture.COUPLING);
  }

  private void mate() {
    String lock =
        air
            ? "The air is off, vented and locked; the power is off and locked."
            : "The power is off and locked.";
    add(
        StepKey.MATE,
        new Step.Deed(),
        List.of(
            lock,
            "Valve and unit both stand at closed. A drive with several points allows 45°, a square"
                + " one 90°: the mark on the stem says which is closed, not the lever.",
            "Set the unit on, and tighten its bolts crosswise."),
        air ? List.of(Caution.MATING, Caution.AIR) : List.of(Caution.MATING),
        Picture.MATE,
        Field.choice(FieldKey.STEM_MARK, "Stem mark at closed", "yes", "no").must());
  }

  private void wire() {
    List<String> does = new ArrayList<>();
    does.add("Power and signal lie apart, in their own entries. Mind the polarity of the signal.");
    does.add("The shield is earthed at one end only.");
    if (!facts.poweredBoards().isEmpty()) {
      does.add("These take power: " + String.join(", ", facts.poweredBoards()) + ".");
    }
    if (!facts.signalBoards().isEmpty()) {
      does.add("These take signals only: " + String.join(", ", facts.signalBoards()) + ".");
    }
    facts
        .manual()
        .ifPresent(
            file ->
                does.add(
                    "The maker's own page: "
                        + file
                        + (facts.manualPlace().isEmpty() ? "" : ", " + facts.manualPlace())
                        + "."));
    does.add("Measure the resistance of the signal loop at the bench's end" + expectedLoop() + ".");
    add(
        StepKey.WIRE,
        new Step.Deed(),
        does,
        List.of(Caution.WIRING),
        Picture.WIRE,
        Field.number(FieldKey.LOOP_OHM, "Loop resistance", "Ω", 0, MOST_OHMS),
        Field.choice(FieldKey.SHIELD, "Shield earthed", "at one end", "no shield"));
  }

  private String expectedLoop() {
    return unit.loopOhms().isPresent()
        ? "; some " + Numbers.fixed(unit.loopOhms().getAsDouble(), 0) + " Ω are expected"
        : "";
  }

  private void end(boolean open) {
    double target = open ? unit.travelDegrees() : 0.0;
    String word = open ? "open" : "closed";
    add(
        open ? StepKey.TO_OPEN : StepKey.TO_CLOSED,
        new Step.ByHand(target),
        List.of(
            (air
                    ? "Bring the unit to " + word + " with the regulator"
                    : "Turn the hand wheel to " + word)
                + ": "
                + Numbers.plain(target)
                + "°, by the stem's mark."),
        List.of(air ? Caution.AIR_BY_HAND : Caution.HAND_WHEEL, Caution.COVER_OFF),
        air ? Picture.AIR : open ? Picture.WHEEL_OPEN : Picture.WHEEL_CLOSED,
        sight.angle() ? new Field[0] : new Field[] {angle(FieldKey.ANGLE_DEG, "Angle on a scale")});
    LimitSwitch outer = open ? LimitSwitch.OPEN : LimitSwitch.CLOSED;
    LimitSwitch auxiliary = open ? LimitSwitch.OPEN_AUXILIARY : LimitSwitch.CLOSED_AUXILIARY;
    Set<LimitSwitch> has = switches();
    if (has.contains(outer)) {
      cam(open ? StepKey.OPEN_SWITCH : StepKey.CLOSED_SWITCH, outer, Optional.empty());
    }
    if (has.contains(auxiliary)) {
      cam(
          open ? StepKey.OPEN_AUXILIARY : StepKey.CLOSED_AUXILIARY,
          auxiliary,
          Optional.of(outer).filter(has::contains));
    }
    stop(open, has.contains(outer));
  }

  private Set<LimitSwitch> switches() {
    Set<LimitSwitch> has = air ? EnumSet.noneOf(LimitSwitch.class) : EnumSet.copyOf(Sight.ends());
    has.addAll(unit.switches().keySet());
    return has;
  }

  private void cam(StepKey key, LimitSwitch which, Optional<LimitSwitch> ends) {
    Step.Cam form = new Step.Cam(which, ends);
    List<String> does = new ArrayList<>();
    if (ends.isPresent()) {
      does.add(
          "It trips "
              + Numbers.upTo(lead(unit, form), 2)
              + "° before the end switch, on the way to "
              + (form.openEnd() ? "open" : "closed")
              + ".");
    } else {
      Optional<Angle> set = Optional.ofNullable(unit.switches().get(which));
      does.add(
          set.map(angle -> "It is to trip at " + Numbers.plain(angle.degrees()) + "°.")
              .orElse(
                  "The unit type states no angle for it: it trips where the valve is shut off."));
    }
    String turn = air ? "Move" : "Turn the wheel";
    does.add(
        "Turn the cam on until "
            + (sight.switches() ? "the lamp changes" : "you hear it click")
            + ", stop. "
            + turn
            + " back until it resets, then on again: that is where it trips.");
    Field[] fields =
        sight.angle()
            ? new Field[0]
            : new Field[] {
              angle(FieldKey.TRIP_DEG, "Trips at"), angle(FieldKey.RESET_DEG, "Resets at")
            };
    add(key, form, does, List.of(Caution.COVER_OFF, Caution.STOPS_AND_CAMS), picture(form), fields);
  }

  private static Picture picture(Step.Cam form) {
    if (form.ends().isPresent()) {
      return form.openEnd() ? Picture.AUXILIARY_OPEN : Picture.AUXILIARY_CLOSED;
    }
    return form.openEnd() ? Picture.CAM_OPEN : Picture.CAM_CLOSED;
  }

  /** How far an auxiliary switch trips before its end switch, °, by the order. */
  static double lead(UnitType unit, Step.Cam form) {
    Optional<Angle> own = Optional.ofNullable(unit.switches().get(form.which()));
    Optional<Angle> end = form.ends().map(unit.switches()::get);
    double inwards = form.openEnd() ? -1.0 : 1.0;
    double stated =
        own.isPresent() && end.isPresent()
            ? inwards * (own.get().degrees() - end.get().degrees())
            : SetUpFacts.USUAL_LEAD_DEGREES;
    return unit.setUp().auxiliaryLeadDegrees().orElse(stated);
  }

  private void stop(boolean open, boolean afterSwitch) {
    String where =
        afterSwitch
            ? "The shaft stands where the end switch has just tripped. "
            : "The shaft stands at its end. ";
    Field turns =
        Field.number(FieldKey.TURNS_BACK, "Turned back", "turns", 0, 20)
            .must()
            .with(Numbers.plain(facts.stopTurnsBack()));
    String margin =
        facts.stopDegreesPerTurn().isPresent()
            ? Numbers.plain(facts.stopTurnsBack() * facts.stopDegreesPerTurn().getAsDouble())
            : "";
    add(
        open ? StepKey.OPEN_STOP : StepKey.CLOSED_STOP,
        new Step.Deed(),
        List.of(
            where
                + "Turn the stop screw in until it meets, then "
                + Numbers.plain(facts.stopTurnsBack())
                + " turns back, and lock it."),
        List.of(Caution.STOPS_AND_CAMS),
        open ? Picture.STOP_OPEN : Picture.STOP_CLOSED,
        turns,
        Field.number(FieldKey.STOP_MARGIN_DEG, "Margin to the stop", "°", 0, 45).with(margin));
  }

  private void afterTurning() {
    if (!air) {
      add(
          StepKey.MID_TRAVEL,
          new Step.ByHand(unit.travelDegrees() / 2.0),
          List.of(
              "Turn the hand wheel to mid travel: a calibration that starts at an end can go"
                  + " wrong."),
          List.of(Caution.HAND_WHEEL),
          Picture.WHEEL_MIDDLE,
          sight.angle()
              ? new Field[0]
              : new Field[] {angle(FieldKey.ANGLE_DEG, "Angle on a scale")});
    }
    powerOn();
    add(
        StepKey.CALIBRATION,
        new Step.Calibrate(facts.calibrationSeconds().orElse(0.0)),
        List.of(
            "Start the unit's own calibration at the unit, and say so here in the same moment.",
            "Watch which way it goes first, and that it finds both ends."
                + (facts.calibrationSeconds().isPresent()
                    ? " It usually takes some "
                        + Numbers.fixed(facts.calibrationSeconds().getAsDouble(), 0)
                        + " s."
                    : "")),
        List.of(Caution.AUTO_CALIBRATION),
        Picture.CALIBRATION,
        Field.choice(FieldKey.RESULT, "The display says", "succeeded", "failed", "nothing").must(),
        Field.choice(FieldKey.FIRST_WAY, "It went first", "closing", "opening"));
    display();
    if (!air) {
      heaterAndWheel();
    }
    add(
        StepKey.READY,
        new Step.Ready(),
        List.of("All covers are closed. The unit is ready for its test."),
        List.of(),
        Picture.READY);
  }

  private void powerOn() {
    String safe = unit.safeSignal().toString();
    List<String> does = new ArrayList<>();
    does.add("Stops and cams once more by eye: an end switch trips before its stop meets.");
    does.add(
        air
            ? "The source is brought to " + safe + "; then open the air."
            : sight.relay()
                ? "The source is brought to " + safe + "; then the bench switches the power on."
                : "The source is brought to " + safe + "; then unlock the power and switch it on.");
    Field[] fields =
        sight.sourceByHand()
            ? new Field[] {
              Field.choice(FieldKey.SOURCE_SET, "The source is set to " + safe, "yes").must()
            }
            : new Field[0];
    add(
        StepKey.POWER_ON,
        new Step.Energise(),
        does,
        List.of(air ? Caution.AIR_ON : Caution.firstMotion(sight.relay())),
        Picture.POWER_ON,
        fields);
  }

  private void display() {
    List<Field> fields = new ArrayList<>();
    fields.add(Field.words(FieldKey.SOFTWARE, "Software version"));
    if (!air) {
      fields.add(Field.number(FieldKey.VOLTAGE_V, "Voltage", "V", 0, 1000));
    }
    fields.add(Field.number(FieldKey.DEAD_BAND_PCT, "Dead band", "%", 0, 100));
    fields.add(Field.choice(FieldKey.LOSS_ACTION, "On loss of signal", "close", "open", "stay"));
    fields.add(Field.choice(FieldKey.DIRECTION, "Direction", "direct", "reverse"));
    add(
        StepKey.DISPLAY,
        new Step.Display(),
        List.of(
            "Read the unit's own display and type what it says; leave out what it doesn't say."
                + " It is compared with the order."),
        List.of(),
        Picture.DISPLAY,
        fields.toArray(Field[]::new));
  }

  private void heaterAndWheel() {
    List<Field> fields = new ArrayList<>();
    if (facts.heater()) {
      fields.add(Field.choice(FieldKey.HEATER, "Enclosure heater", "works", "does not", "off"));
    }
    fields.add(Field.choice(FieldKey.HAND_WHEEL, "Hand wheel released", "yes", "no").must());
    String release =
        facts.release().isEmpty()
            ? "The hand wheel is out of the gear: the motor drives without it."
            : "The hand wheel is released: " + facts.release() + ".";
    add(
        StepKey.HEATER_AND_WHEEL,
        new Step.Deed(),
        facts.heater()
            ? List.of("The enclosure's heater has its supply and gets warm.", release)
            : List.of(release),
        List.of(),
        Picture.HEATER,
        fields.toArray(Field[]::new));
  }

  private Field angle(FieldKey key, String label) {
    double travel = unit.travelDegrees();
    return Field.number(key, label, "°", -travel, 2.0 * travel);
  }

  private void add(
      StepKey key,
      Step.Form form,
      List<String> does,
      List<Caution> cautions,
      Picture picture,
      Field... fields) {
    steps.add(new Step(key, form, does, cautions, picture, List.of(fields)));
  }
}

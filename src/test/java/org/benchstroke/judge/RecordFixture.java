package org.benchstroke.judge;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.Mounting;
import org.benchstroke.bench.TemperatureRange;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.core.quantity.CertifiedPoints;
import org.benchstroke.core.quantity.Characteristic;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.scpi.ScpiSettings;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.LossWay;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.StepId;
import org.benchstroke.tests.Catalogue;
import org.benchstroke.tests.exercise.Exercise;
import org.benchstroke.tests.loss.SignalLoss;
import org.benchstroke.tests.stroke.StrokeTime;
import org.benchstroke.tests.travel.TravelError;
import org.benchstroke.unit.DecisionRule;
import org.benchstroke.unit.Duty;
import org.benchstroke.unit.FailAction;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.Practice;
import org.benchstroke.unit.SetUpFacts;
import org.benchstroke.unit.UnitType;

/** Builds records by hand: a unit of constant speed on an invented bench, with faults on demand. */
public final class RecordFixture {
  public static final double PERIOD = 0.1;
  public static final List<Double> POINTS = List.of(0.0, 25.0, 50.0, 75.0, 100.0);

  public final List<Entry> entries = new ArrayList<>();
  public final List<String> flaws = new ArrayList<>();
  public double strokeSeconds = 15.0;
  public int cycles = 1;
  public boolean angleReference;
  public boolean oneBox;
  public boolean reversed;

  /** Whether temperature and time since the calibration add to what the mA channels may be off. */
  public boolean influenced;

  /** The wall clock at bench time 0. */
  public final Instant began;

  /** What the feedback rests at for a setpoint approached up (+1) or down (−1). */
  public PositionAt feedback = (setpoint, side) -> setpoint + side * -0.05;

  /** What the stem stands at when the feedback reads this, going up (+1) or down (−1). */
  public PositionAt stem = (position, side) -> position;

  /** Where the unit goes on each way of losing the signal. */
  public final Map<LossWay, DoubleUnaryOperator> onLoss =
      new EnumMap<>(
          Map.of(LossWay.LOW, p -> 0.0, LossWay.LOST, p -> 0.0, LossWay.OPEN_LOOP, p -> 0.0));

  public double lossDelaySeconds = 0.5;
  public String skippedPoint = "";
  public String unsettledPoint = "";
  public String uncleanPoint = "";
  public String retakenPoint = "";
  public String gapPoint = "";
  public String saturatedPoint = "";
  public boolean openSwitchMade;

  /** The noise at rest: as much up and down, %. */
  public double wiggle = 0.003;

  /** The step of what is read, %; 0 for none. */
  public double step;

  /**
   * What the bench file states as the step of a current, mA, and of an angle, ten times as many °.
   */
  public double resolution = 0.001;

  public OptionalDouble repeatability = OptionalDouble.empty();

  /** What the certificates of source, transmitter and angle reference say, where they count. */
  public final Map<Role, CertifiedPoints> certified = new EnumMap<>(Role.class);

  /** How the angle reference sits on the stem. */
  public Optional<Mounting> mounting = Optional.empty();

  public FailAction failAction = FailAction.CLOSE;
  public List<Limit> limits = usualLimits();

  public double now = 1.0;
  public double position;
  private double side = 1.0;
  private double lastMade = Double.NaN;
  private Optional<StepId> id = Optional.empty();
  private List<Aim> aims = List.of();
  private boolean leadsIn;

  /** What a record is written of, where it is not the usual procedure. */
  public List<TestSpec> tests = List.of();

  /** A position for a setpoint and a side. */
  public interface PositionAt {
    double of(double percent, double side);
  }

  public RecordFixture() {
    this(Instant.EPOCH);
  }

  public RecordFixture(Instant began) {
    this.began = began;
    add(
        new Event.Opened(
            Event.FORMAT, "benchstroke test", "", 1.0, "SN-1", "invented", "", "Z", List.of()));
  }

  public static List<Limit> usualLimits() {
    return List.of(
        symmetric(MeasureKind.TRAVEL_ERROR, 1.0),
        symmetric(MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, 0.8),
        symmetric(MeasureKind.LINEARITY_INDEPENDENT, 1.0),
        new Limit(
            MeasureKind.STROKE_TIME_OPENING,
            OptionalDouble.of(13.5),
            OptionalDouble.of(16.5),
            DecisionRule.GUARD_BAND_U),
        symmetric(MeasureKind.STROKE_ASYMMETRY, 10.0));
  }

  public static Limit symmetric(MeasureKind kind, double limit) {
    return new Limit(
        kind, OptionalDouble.of(-limit), OptionalDouble.of(limit), DecisionRule.GUARD_BAND_U);
  }

  public UnitType unit() {
    return new UnitType(
        "invented unit",
        UnitType.Drive.MOTOR,
        90.0,
        15.0,
        SignalRange.FOUR_TO_TWENTY,
        Characteristic.linear(),
        SignalRange.FOUR_TO_TWENTY,
        Current.ofMilliamps(4.0),
        new UnitType.SignalLoss(
            failAction, 1.0, Current.ofMilliamps(3.9), Current.ofMilliamps(3.5)),
        0.5,
        repeatability,
        0.3,
        OptionalDouble.of(250.0),
        Map.of(),
        limits,
        Practice.USUAL,
        Duty.UNSTATED,
        Optional.empty(),
        SetUpFacts.UNSTATED);
  }

  public BenchFile bench() {
    List<InstrumentSpec> instruments = new ArrayList<>();
    Channel milliamps =
        influenced ? influenced() : channel("mA", new Accuracy(0.02, 0.0, 0.0, 0.002), resolution);
    if (oneBox) {
      instruments.add(
          instrument("source", Map.of(Role.SIGNAL_SOURCE, milliamps, Role.LOOP_METER, milliamps)));
    } else {
      instruments.add(instrument("source", Map.of(Role.SIGNAL_SOURCE, milliamps)));
      instruments.add(instrument("meter", Map.of(Role.LOOP_METER, milliamps)));
    }
    instruments.add(instrument("input", Map.of(Role.POSITION_TRANSMITTER, milliamps)));
    if (angleReference) {
      Channel degrees = channel("deg", new Accuracy(0.0, 0.0, 0.0, 0.05), 10.0 * resolution);
      instruments.add(instrument("angle", Map.of(Role.ANGLE_REFERENCE, degrees)));
    }
    List<InstrumentSpec> all = instruments.stream().map(this::calibrated).toList();
    BenchFile bench = new BenchFile("invented bench", "nowhere", PERIOD, Optional.empty(), all);
    return influenced ? bench.at(new TemperatureRange(15.0, 30.0)) : bench;
  }

  /** With its certificate's figures and its mounting. */
  private InstrumentSpec calibrated(InstrumentSpec spec) {
    Map<Role, Channel> channels = new EnumMap<>(spec.channels());
    channels.replaceAll(
        (role, c) ->
            new Channel(
                c.unit(),
                c.accuracy(),
                c.resolution(),
                c.low(),
                c.high(),
                c.perKelvin(),
                c.perYear(),
                Optional.ofNullable(certified.get(role))));
    return new InstrumentSpec(
        spec.name(),
        spec.roles(),
        spec.talk(),
        spec.endpoint(),
        spec.replySeconds(),
        spec.maker(),
        spec.model(),
        spec.serial(),
        spec.calibration(),
        channels,
        spec.complianceVolts(),
        mounting);
  }

  /** 0.02 % of reading per kelvin and 0.1 % of reading a year. */
  private static Channel influenced() {
    return new Channel(
        "mA",
        new Accuracy(0.02, 0.0, 0.0, 0.002),
        0.001,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        Optional.of(new Accuracy(0.02, 0.0, 0.0, 0.0)),
        Optional.of(new Accuracy(0.1, 0.0, 0.0, 0.0)),
        Optional.empty());
  }

  private static Channel channel(String unit, Accuracy accuracy, double resolution) {
    return new Channel(unit, accuracy, resolution, OptionalDouble.empty(), OptionalDouble.empty());
  }

  private static InstrumentSpec instrument(String name, Map<Role, Channel> channels) {
    return new InstrumentSpec(
        name,
        Set.copyOf(channels.keySet()),
        ScpiSettings.USUAL,
        new Endpoint.Tcp("127.0.0.1", 5025),
        0.5,
        "Invented",
        "X",
        name,
        new InstrumentSpec.Calibration(
            "C-1",
            LocalDate.of(2026, 1, 1),
            LocalDate.of(2027, 1, 1),
            Optional.of(new TemperatureRange(18.0, 28.0)),
            "",
            OptionalDouble.empty()),
        channels,
        OptionalDouble.empty());
  }

  public Procedure procedure() {
    return new Procedure(
        "short",
        "1",
        List.of(
            new Exercise(1),
            new StrokeTime(2),
            new TravelError(POINTS.stream().map(Position::ofPercent).toList(), cycles),
            new SignalLoss(
                Position.ofPercent(50.0), List.of(LossWay.LOW, LossWay.LOST, LossWay.OPEN_LOOP))));
  }

  public JudgedRun judge() {
    return Catalogue.judge().judge(new RunRecord(entries, flaws), bench(), unit(), procedure());
  }

  /** All tests and a closing line. */
  public RecordFixture wholeRun() {
    return exercise().strokes().travel(1).loss().close("complete", "");
  }

  public RecordFixture exercise() {
    began(0, "exercise", 1);
    strokePair("exercise", 1);
    return ended(0, "exercise", 1, "complete", "");
  }

  public RecordFixture strokes() {
    began(1, "stroke time", 1);
    strokePair("stroke", 1);
    strokePair("stroke", 2);
    return ended(1, "stroke time", 1, "complete", "");
  }

  private void strokePair(String name, int cycle) {
    if (cycle == 1) {
      approach(name + " start", 0.0, "none", 0);
    }
    approach(name + " opening", 100.0, "up", cycle);
    approach(name + " closing", 0.0, "down", cycle);
  }

  public RecordFixture travel(int attempt) {
    began(2, "travel error", attempt);
    travelPoints();
    return ended(2, "travel error", attempt, "complete", "");
  }

  public RecordFixture voidTravel(int attempt, String reason) {
    began(2, "travel error", attempt);
    approach("travel start", 25.0, "none", 0);
    return ended(2, "travel error", attempt, "void", reason);
  }

  private void travelPoints() {
    approach("travel start", 25.0, "none", 0);
    approach("travel settle", 0.0, "down", 0);
    for (int cycle = 1; cycle <= cycles; cycle++) {
      for (int i = 1; i < POINTS.size(); i++) {
        travelPoint(POINTS.get(i), "up", cycle);
      }
      for (int i = POINTS.size() - 2; i >= 0; i--) {
        travelPoint(POINTS.get(i), "down", cycle);
      }
    }
  }

  private void travelPoint(double setpoint, String direction, int cycle) {
    String point = "travel " + (int) setpoint + " " + direction;
    if (point.equals(retakenPoint)) {
      uncleanPoint = point;
      approach(point, setpoint, direction, cycle);
      uncleanPoint = "";
      approach("travel back", setpoint - 25.0, "none", cycle);
    }
    approach(point, setpoint, direction, cycle);
  }

  public RecordFixture loss() {
    began(3, "signal loss", 1);
    for (LossWay way : List.of(LossWay.LOW, LossWay.LOST, LossWay.OPEN_LOOP)) {
      approach("loss start", 50.0, "none", 0);
      double milliamps = way == LossWay.LOW ? 3.9 : way == LossWay.LOST ? 3.5 : 0.0;
      boolean open = way == LossWay.OPEN_LOOP;
      String what = open ? "open loop" : milliamps + " mA";
      add(new Event.Disturbed(what, milliamps, open, nanos(now), nanos(now + 0.01)));
      now += 0.02;
      double delay = way == LossWay.LOW ? 0.2 : lossDelaySeconds;
      hold(delay);
      moveTo(onLoss.get(way).applyAsDouble(position));
      rest("loss " + way.key(), 50.0, "none", 0, Math.max(3.0, 10.0 - delay));
    }
    approach("loss recovery", 50.0, "none", 0);
    return ended(3, "signal loss", 1, "complete", "");
  }

  public RecordFixture began(int index, String test, int attempt) {
    lastMade = Double.NaN;
    add(new Event.TestBegan(index, test, attempt));
    Procedure whole = tests.isEmpty() ? procedure() : new Procedure("p", "1", tests);
    aims =
        Expansion.of(whole, unit(), PERIOD).tests().get(index).actions().stream()
            .map(Action::aim)
            .toList();
    id = Optional.of(new StepId(index, attempt, 0, 1));
    return this;
  }

  public RecordFixture ended(int index, String test, int attempt, String outcome, String reason) {
    id = Optional.empty();
    add(new Event.TestEnded(index, test, attempt, outcome, reason));
    return this;
  }

  public RecordFixture close(String how, String reason) {
    add(new Event.Closed(how, reason, now));
    return this;
  }

  /** The next step of the test that is called so, or the last one that was. */
  public void step(String words, int cycle) {
    int last = id.map(StepId::step).orElse(0);
    List<Integer> alike =
        IntStream.range(0, aims.size())
            .filter(i -> !ofAnother(aims.get(i), cycle) && words.startsWith(aims.get(i).words()))
            .boxed()
            .sorted(Comparator.comparing(i -> !words.equals(aims.get(i).words())))
            .toList();
    int found =
        alike.stream()
            .filter(i -> i > last && words.equals(aims.get(i).words()))
            .findFirst()
            .or(() -> alike.stream().filter(i -> i == last).findFirst())
            .or(() -> alike.stream().findFirst())
            .orElse(-1);
    id = found < 0 ? id : id.map(s -> new StepId(s.test(), s.attempt(), found, 1));
    leadsIn = found < 0 || aims.get(found) instanceof Aim.LeadIn;
  }

  private static boolean ofAnother(Aim aim, int cycle) {
    return (aim instanceof TravelError.Place place && place.cycle() != cycle)
        || (aim instanceof Aim.Stroke stroke && stroke.cycle() != cycle);
  }

  /** Commands a setpoint, travels there at constant speed and rests. */
  public void approach(String point, double setpoint, String direction, int cycle) {
    double milliamps = 4.0 + 0.16 * setpoint;
    step(point, cycle);
    add(new Event.Commanded(setpoint, milliamps, milliamps, nanos(now), nanos(now + 0.01)));
    now += 0.02;
    double target = reversed ? 100.0 - setpoint : setpoint;
    side = target >= position ? 1.0 : -1.0;
    hold(0.2);
    moveTo(feedback.of(target, side));
    if (!point.equals(skippedPoint)) {
      rest(point, setpoint, direction, cycle, 3.0);
    }
  }

  public void moveTo(double target) {
    double speed = 100.0 / strokeSeconds * Math.signum(target - position);
    while (speed != 0.0 && (target - position) * speed > 0.0) {
      double next = position + speed * PERIOD;
      position = (target - next) * speed > 0.0 ? next : target;
      sample(position, "good");
    }
  }

  public void hold(double seconds) {
    double until = now + seconds;
    while (now < until) {
      sample(position, "good");
    }
  }

  public void rest(String point, double setpoint, String direction, int cycle, double seconds) {
    step(point, cycle);
    double from = now - 1.0e-3;
    int count = (int) Math.round(seconds / PERIOD);
    for (int i = 0; i < count; i++) {
      if (point.equals(gapPoint) && i == count / 2) {
        now += 0.5;
      }
      boolean saturated = point.equals(saturatedPoint) && i == count - 3;
      // One step of the transmitter up and down: ±0.00625 %.
      sample(position + (i % 2 == 0 ? wiggle : -wiggle), saturated ? "saturated" : "good");
    }
    add(
        new Event.Rested(
            point,
            leadsIn ? Leg.LEAD_IN : Leg.ARRIVAL,
            setpoint,
            direction,
            cycle,
            !point.equals(unsettledPoint),
            !point.equals(uncleanPoint),
            nanos(from),
            nanos(now),
            0.05));
  }

  public void sample(double exact, String quality) {
    double percent = step > 0.0 ? Math.rint(exact / step) * step : exact;
    add(new Event.Sampled("position", percent, "%", quality, "", nanos(now), nanos(now + 0.004)));
    if (angleReference) {
      double degrees = stem.of(percent, side) * 0.9;
      add(
          new Event.Sampled(
              "stem", degrees, "deg", "good", "", nanos(now + 0.01), nanos(now + 0.014)));
    }
    if (openSwitchMade) {
      // As the runner does: the first state of a test, and each change.
      double made = percent > 91.0 ? 1.0 : 0.0;
      if (made != lastMade) {
        add(
            new Event.Sampled(
                "switch open", made, "made", "good", "", nanos(now + 0.02), nanos(now + 0.024)));
      }
      lastMade = made;
    }
    now += PERIOD;
  }

  public void add(Event event) {
    entries.add(new Entry(entries.size() + 1L, nanos(now), began, id, event));
  }

  public static long nanos(double seconds) {
    return Math.round(seconds * 1.0e9);
  }
}

package org.benchstroke.core.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.benchstroke.core.model.PneumaticParameters.Spring;
import org.benchstroke.core.quantity.Characteristic;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.SignalRange;
import org.junit.jupiter.api.Test;

/** The pneumatic unit against first principles; each test names its own. */
class PneumaticPhysicsTest {
  private static final PneumaticParameters BASE = PneumaticParameters.baseline();

  /** No friction, a supply that nothing drains, almost no damping, no dead zone. */
  private static PneumaticParameters ideal(double gain) {
    PneumaticParameters p = rubbing(0.0, 0.0);
    return new PneumaticParameters(
        p.spring(),
        p.airSeconds(),
        p.springSeconds(),
        p.springFromBar(),
        p.springToBar(),
        p.deadVolumeRatio(),
        0.001,
        0.0,
        0.0,
        new AirParameters(5.5, 5.5, 0.001, 1000, 1.4),
        new PositionerParameters(gain, 0.0, 0.0));
  }

  private static ModelParameters unit(PneumaticParameters pneumatic) {
    ModelParameters base = ModelParameters.baseline();
    SensorParameters quiet = base.sensor().withNoise(0.0, base.sensor().worn());
    ControlParameters c = base.control();
    ControlParameters fast =
        new ControlParameters(
            c.signal(), 0.5, 0.4, 0.001, 0.001, 0.0, 0.0, Characteristic.linear());
    return base.with(quiet).with(fast).with(pneumatic);
  }

  private static UnitModel fed(ModelParameters parameters) {
    UnitModel unit = new UnitModel(parameters, 1);
    unit.motorPower(true);
    return unit;
  }

  private static void command(UnitModel unit, double percent) {
    unit.command(SignalRange.FOUR_TO_TWENTY.currentAt(Position.ofPercent(percent)).milliamps());
  }

  private static void run(UnitModel unit, double seconds) {
    for (long i = Math.round(seconds * 1000); i > 0; i--) {
      unit.step();
    }
  }

  private static double settled(UnitModel unit, double percent) {
    command(unit, percent);
    run(unit, 30.0);
    return unit.truth().stemPercent();
  }

  /** How long until the stem has passed a position, s. */
  private static double until(UnitModel unit, double percent) {
    boolean rising = unit.truth().stemPercent() < percent;
    int steps = 0;
    while (rising == unit.truth().stemPercent() < percent && steps < 60_000) {
      unit.step();
      steps++;
    }
    assertThat(steps).isLessThan(60_000);
    return steps / 1000.0;
  }

  // ISO 6358-1:2013 (from memory): choked up to p2/p1 = b, then an ellipse; here b = 0.3.
  @Test
  void airFlowsAsTheStandardSays() {
    assertThat(AirFlow.between(6.0, 1.0)).isEqualTo(6.0);
    assertThat(AirFlow.between(6.0, 1.8)).isEqualTo(6.0);
    // (0.65 − 0.3)/(1 − 0.3) = 0.5, and √(1 − 0.25) = 0.8660.
    assertThat(AirFlow.between(1.0, 0.65)).isCloseTo(0.8660, within(1e-4));
    assertThat(AirFlow.between(0.65, 1.0)).isCloseTo(-0.8660, within(1e-4));
    assertThat(AirFlow.between(3.0, 3.0)).isZero();
    assertThat(AirFlow.between(3.0, 2.9999)).isBetween(0.0, 0.1);
  }

  // A spring rests on the stop that it presses against: 2° beyond 0 and 90°.
  @Test
  void withoutAirItIsWhereItsSpringDrivesIt() {
    for (Spring spring : Spring.values()) {
      UnitModel unit = fed(unit(driven(spring, BASE.positioner())));
      double rests = spring == Spring.CLOSES ? -2.0 : 92.0;
      assertThat(unit.stemDegrees()).isCloseTo(rests, within(1e-9));
      assertThat(settled(unit, 50.0)).isCloseTo(50.0, within(0.15));
      unit.motorPower(false);
      run(unit, 10.0);
      assertThat(unit.stemDegrees()).isCloseTo(rests, within(1e-9));
    }
  }

  @Test
  void itsSpringDrivesItWithoutASignalToo() {
    for (Spring spring : Spring.values()) {
      UnitModel unit = fed(unit(driven(spring, BASE.positioner())));
      settled(unit, 50.0);
      unit.command(0.0);
      run(unit, 10.0);
      double rests = spring == Spring.CLOSES ? -2.0 : 92.0;
      assertThat(unit.stemDegrees()).isCloseTo(rests, within(1e-9));
    }
  }

  @Test
  void aUnitThatShallStayKeepsItsAir() {
    LossParameters base = ModelParameters.baseline().loss();
    LossParameters stays =
        new LossParameters(
            base.lowMilliamps(),
            base.highMilliamps(),
            base.returnMilliamps(),
            base.openMilliamps(),
            base.delaySeconds(),
            LossParameters.Action.STAY,
            LossParameters.Action.STAY);
    UnitModel unit = fed(unit(BASE).with(stays));
    settled(unit, 50.0);
    unit.command(0.0);
    run(unit, base.delaySeconds() + 0.1);
    double lost = unit.truth().stemPercent();
    run(unit, 20.0);
    assertThat(unit.truth().stemPercent()).isCloseTo(lost, within(1.0));
  }

  // A spool that opens with the error and a stroke that integrates it are a first-order lag:
  // τ = 1/(gain × speed with the spool wide open), T63 = τ, T86 = 2τ, T98 = 4τ (1 − e⁻¹ …).
  @Test
  void aSmallStepIsAFirstOrderResponse() {
    UnitModel wide = fed(unit(ideal(200.0)));
    settled(wide, 0.0);
    command(wide, 100.0);
    until(wide, 50.0);
    double speed = 2.0 / until(wide, 52.0);
    double gain = 5.0;
    double tau = 1.0 / (gain / 100.0 * speed);
    UnitModel unit = fed(unit(ideal(gain)));
    double from = settled(unit, 50.0);
    command(unit, 52.0);
    double t63 = until(unit, from + 2.0 * (1.0 - Math.exp(-1.0)));
    double t86 = t63 + until(unit, from + 2.0 * (1.0 - Math.exp(-2.0)));
    double t98 = t86 + until(unit, from + 2.0 * (1.0 - Math.exp(-4.0)));
    assertThat(t63).isCloseTo(tau, within(0.05 * tau));
    assertThat(t86 / t63).isCloseTo(2.0, within(0.05));
    assertThat(t98 / t63).isCloseTo(4.0, within(0.1));
  }

  // Its own parameters: full travel at the rated pressure with the spool wide open.
  @Test
  void fullTravelTakesItsTimes() {
    UnitModel unit = fed(unit(ideal(200.0)));
    settled(unit, 0.0);
    command(unit, 100.0);
    double byAir = until(unit, 99.0);
    settled(unit, 100.0);
    command(unit, 0.0);
    double bySpring = until(unit, 1.0);
    assertThat(byAir).isCloseTo(BASE.airSeconds(), within(0.1));
    assertThat(bySpring).isCloseTo(BASE.springSeconds(), within(0.1));
  }

  // Hooke's law: 3.4 bar against a spring of 2 to 4 bar reach 70 %.
  @Test
  void lowSupplyReachesOnlyAsFarAsItBalancesTheSpringAndIsSlower() {
    PneumaticParameters sound = ideal(200.0);
    PneumaticParameters low = fedBy(sound, sound.air().withSupply(3.4));
    UnitModel unit = fed(unit(low));
    UnitModel other = fed(unit(sound));
    settled(unit, 0.0);
    settled(other, 0.0);
    command(unit, 60.0);
    command(other, 60.0);
    assertThat(until(unit, 50.0)).isGreaterThan(1.5 * until(other, 50.0));
    assertThat(settled(unit, 100.0)).isCloseTo(70.0, within(0.2));
    assertThat(settled(other, 100.0)).isCloseTo(100.0, within(0.2));
  }

  @Test
  void aSupplyBelowThePilotPressureVentsIt() {
    UnitModel unit = fed(unit(fedBy(BASE, BASE.air().withSupply(1.3))));
    assertThat(settled(unit, 100.0)).isCloseTo(-2.0 / 0.9, within(1e-9));
  }

  /** The small volume behind a slow regulator is drained, so the second half comes late. */
  @Test
  void aStarvedSupplyIsSlow() {
    UnitModel starved = fed(unit(fedBy(BASE, new AirParameters(5.5, 5.5, 5.0, 0.5, 1.4))));
    UnitModel sound = fed(unit(BASE));
    run(starved, 30.0);
    run(sound, 30.0);
    command(starved, 100.0);
    command(sound, 100.0);
    assertThat(until(starved, 95.0)).isGreaterThan(1.5 * until(sound, 95.0));
  }

  // Stick-slip under an integrating controller is a limit cycle; textbook, no source at hand.
  @Test
  void stictionMakesItHuntAndWithoutItItRests() {
    assertThat(swing(rubbing(12.0, 4.0))).isGreaterThan(1.0);
    assertThat(swing(BASE)).isLessThan(0.01);
  }

  private static double swing(PneumaticParameters pneumatic) {
    UnitModel unit = fed(unit(pneumatic));
    settled(unit, 30.0);
    settled(unit, 50.0);
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < 60_000; i++) {
      unit.step();
      least = Math.min(least, unit.truth().stemPercent());
      most = Math.max(most, unit.truth().stemPercent());
    }
    return most - least;
  }

  @Test
  void cutOffDrivesItFullyToItsEnds() {
    PneumaticParameters cut = driven(BASE.spring(), new PositionerParameters(10.0, 0.1, 0.5));
    UnitModel unit = fed(unit(cut));
    assertThat(settled(unit, 100.0)).isCloseTo(92.0 / 0.9, within(1e-9));
    assertThat(settled(unit, 99.0)).isCloseTo(99.0, within(0.15));
    assertThat(settled(unit, 0.2)).isCloseTo(-2.0 / 0.9, within(1e-9));
  }

  @Test
  void itCalibratesItself() {
    ModelParameters by =
        unit(BASE).with(CalibrationParameters.byHand(0.0, 90.0).by(CalibrationParameters.By.UNIT));
    UnitModel unit = fed(by);
    settled(unit, 100.0);
    // 0.33° inside its stops at −2° and 92°.
    assertThat(unit.stemDegrees()).isCloseTo(91.67, within(0.15));
  }

  @Test
  void sameSeedSameBits() {
    ModelParameters noisy = ModelParameters.baseline().with(BASE);
    UnitModel one = fed(noisy);
    UnitModel other = fed(noisy);
    command(one, 60.0);
    command(other, 60.0);
    run(one, 5.0);
    run(other, 5.0);
    assertThat(one.truth()).isEqualTo(other.truth());
    assertThat(one.supplyVolts()).isZero();
    assertThat(one.motorAmperes()).isZero();
  }

  @Test
  void truthSaysWhatItCanOfAPneumaticUnit() {
    UnitTruth truth =
        UnitTruth.of(
            unit(driven(BASE.spring(), new PositionerParameters(10.0, 0.2, 0.0))),
            new UnitTruth.Ordered(
                SignalRange.FOUR_TO_TWENTY, Characteristic.linear(), SignalRange.FOUR_TO_TWENTY));
    assertThat(truth.startPercent()).isEqualTo(OptionalDouble.empty());
    assertThat(truth.stopPercent()).isEqualTo(OptionalDouble.empty());
    assertThat(truth.coastPercent()).isEqualTo(OptionalDouble.empty());
    // Both sides of the dead zone.
    assertThat(truth.deadBandPercent().orElseThrow()).isCloseTo(0.4, within(0.05));
    assertThat(truth.zeroPercent().orElseThrow()).isCloseTo(0.2, within(0.05));
    assertThat(truth.openingSeconds().orElseThrow()).isBetween(1.8, 2.6);
  }

  /** Anywhere within the parameters' ranges it stays a number, and within its stops. */
  @Test
  void anyParametersKeepItWithinItsStops() {
    SplittableRandom random = new SplittableRandom(20_260_601L);
    for (int draw = 0; draw < 200; draw++) {
      UnitModel unit = new UnitModel(unit(drawn(random)), draw);
      for (int move = 0; move < 12; move++) {
        unit.motorPower(random.nextInt(6) > 0);
        command(unit, random.nextDouble(-20.0, 120.0));
        run(unit, random.nextDouble(0.1, 2.0));
        assertThat(unit.stemDegrees()).as("draw %d", draw).isBetween(-2.0 - 1e-9, 92.0 + 1e-9);
      }
    }
  }

  private static PneumaticParameters drawn(SplittableRandom random) {
    double from = random.nextDouble(0.1, 4.0);
    double to = random.nextDouble(from + 0.1, 9.0);
    double stick = random.nextDouble(0.0, 30.0);
    return new PneumaticParameters(
        random.nextBoolean() ? Spring.CLOSES : Spring.OPENS,
        shortOrLong(random, 0.2, 300.0),
        shortOrLong(random, 0.2, 300.0),
        from,
        to,
        shortOrLong(random, 0.05, 5.0),
        shortOrLong(random, 0.001, 5.0),
        stick,
        random.nextDouble(0.0, stick),
        new AirParameters(
            random.nextDouble(0.0, 10.0),
            random.nextDouble(to + 0.1, 10.0),
            shortOrLong(random, 0.001, 60.0),
            shortOrLong(random, 0.1, 1000.0),
            random.nextDouble(0.0, 3.0)),
        new PositionerParameters(
            shortOrLong(random, 0.5, 200.0), random.nextDouble(0.0, 10.0), 0.0));
  }

  private static double shortOrLong(SplittableRandom random, double low, double high) {
    return random.nextInt(4) == 0 ? low : low * Math.pow(high / low, random.nextDouble());
  }

  private static PneumaticParameters driven(Spring spring, PositionerParameters positioner) {
    return PneumaticParameters.sound(spring, BASE.airSeconds(), positioner);
  }

  private static PneumaticParameters rubbing(double stick, double slide) {
    return of(BASE, stick, slide, BASE.air());
  }

  private static PneumaticParameters fedBy(PneumaticParameters p, AirParameters air) {
    return of(p, p.stickPercent(), p.slidePercent(), air);
  }

  private static PneumaticParameters of(
      PneumaticParameters p, double stick, double slide, AirParameters air) {
    return new PneumaticParameters(
        p.spring(),
        p.airSeconds(),
        p.springSeconds(),
        p.springFromBar(),
        p.springToBar(),
        p.deadVolumeRatio(),
        p.dampingSeconds(),
        stick,
        slide,
        air,
        p.positioner());
  }
}

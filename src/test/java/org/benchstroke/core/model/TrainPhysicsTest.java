package org.benchstroke.core.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.stat.descriptive.SummaryStatistics;
import org.benchstroke.core.model.SensorParameters.Place;
import org.benchstroke.core.model.SensorParameters.Worn;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Play, friction, linkage, sensor and input against closed forms. Angles of 90° for 100 %. */
class TrainPhysicsTest {
  private static final ModelParameters B = ModelParameters.baseline();
  private static final double FINE = 0.001;

  private static Train train(MechanicsParameters mechanics, Place place) {
    return new Train(mechanics, place, 36.0);
  }

  /** Turns the gear slowly; the last angle is met exactly. */
  private static void turn(Train train, double from, double to) {
    long steps = Math.round(Math.abs(to - from) / FINE);
    for (long i = 1; i <= steps; i++) {
      train.turn(from + (to - from) * i / steps);
    }
  }

  // The definition of play: after a reversal nothing moves for its whole width; on a sweep down and
  // up the driven part differs by it. 1 % is 0.9°.
  @ParameterizedTest
  @CsvSource({"1, 0, 0, OUTPUT", "0, 1, 0, OUTPUT", "1, 0, 0, STEM", "0, 0, 1, STEM"})
  void playIsTheDeadTravelOfAReversal(double gear, double sensor, double coupling, Place place) {
    Train train = train(B.mechanics().withPlay(gear, sensor, coupling), place);
    turn(train, 36.0, 60.0);
    double up = train.sensed();
    assertThat(up).isCloseTo(60.0 - 0.45, within(1e-9));
    turn(train, 60.0, 60.0 - 0.89);
    assertThat(train.sensed()).isCloseTo(up, within(1e-9));
    turn(train, 60.0 - 0.89, 58.0);
    assertThat(train.sensed()).isCloseTo(58.0 + 0.45, within(1e-9));
  }

  @ParameterizedTest
  @CsvSource({"GEAR, 60.0, 59.1", "OUTPUT, 59.55, 59.1", "STEM, 59.1, 59.1"})
  void sensorDoesNotSeeWhatLiesBeyond(Place place, double sensed, double stem) {
    Train train = train(B.mechanics().withPlay(1.0, 0.0, 1.0), place);
    turn(train, 36.0, 60.0);
    assertThat(train.sensed()).isCloseTo(sensed, within(1e-9));
    assertThat(train.stem()).isCloseTo(stem, within(1e-9));
  }

  // A spring that pulls a block: it breaks loose at T_s and comes to rest at T_c, after (T_s −
  // T_c)/k; without damping its energy carries it twice as far (textbook: half a harmonic
  // oscillation about the force T_c). T_s/k = 2 % and T_c/k = 1.5 % of 90° here.
  @ParameterizedTest
  @CsvSource({"0.0, 0.45", "0.5, 0.675", "1.0, 0.9"})
  void stickAndSlipGoesInStepsOfTheTorquesDifference(double overshoot, double step) {
    FrictionParameters friction = new FrictionParameters(2.0, 1.5, overshoot, -50, 150);
    Train train = train(B.mechanics().withFriction(friction), Place.OUTPUT);
    List<Double> jumps = new ArrayList<>();
    double before = train.stem();
    for (double gear = 36.0; gear < 60.0; gear += FINE) {
      train.turn(gear);
      if (train.stem() != before) {
        jumps.add(train.stem() - before);
      }
      before = train.stem();
    }
    assertThat(jumps).allSatisfy(jump -> assertThat(jump).isCloseTo(step, within(2 * FINE)));
    assertThat(jumps.size()).isBetween((int) (22.0 / step) - 1, (int) (24.0 / step) + 1);
  }

  @Test
  void stickySeatHoldsOnlyNearClosed() {
    FrictionParameters seat = new FrictionParameters(3.0, 1.0, 0.0, -50, 2);
    Train train = train(B.mechanics().withFriction(seat), Place.OUTPUT);
    turn(train, 36.0, 50.0);
    assertThat(train.stem()).isEqualTo(50.0);
    turn(train, 50.0, 0.0);
    double seated = train.stem();
    turn(train, 0.0, seated + 2.69);
    assertThat(train.stem()).isEqualTo(seated);
    turn(train, seated + 2.69, 30.0);
    assertThat(train.stem()).isEqualTo(30.0);
  }

  // x = y + s·sin(2π·y/span): at 0, 25, 50, 75, 100 % the error is 0, s, 0, −s, 0; 2 % is 1.8°.
  @ParameterizedTest
  @CsvSource({"0, 0", "22.5, 1.8", "45, 0", "67.5, -1.8", "90, 0"})
  void bentLinkageIsAnSShape(double output, double error) {
    Train train = train(B.mechanics().withLinkage(2.0, 0.0), Place.OUTPUT);
    train.turn(output);
    assertThat(train.output()).isEqualTo(output);
    assertThat(train.sensed()).isEqualTo(output);
    assertThat(train.stem() - output).isCloseTo(error, within(1e-9));
  }

  @Test
  void aStemMountedOffIsOffByAConstant() {
    Rig rig = new Rig(B.with(B.mechanics().withLinkage(0.0, 45.0)), 1);
    for (Rig.Point point : rig.travel(0, 50, 100)) {
      assertThat(point.worst()).isLessThan(0.1);
      assertThat(point.upStem() - point.up()).isCloseTo(50.0, within(0.1));
    }
  }

  // Seen by the controller, play in the gear costs time only; the stem is where it should be.
  @Test
  void gearPlayDelaysAReversal() {
    double clean = secondsToMove(B, 40.0);
    double loose = secondsToMove(B.with(B.mechanics().withPlay(1.0, 0, 0)), 40.0);
    // 0.9° at 5.94°/s.
    assertThat(loose - clean).isCloseTo(0.9 / 5.94, within(0.03));
    double same =
        secondsToMove(B.with(B.mechanics().withPlay(1.0, 0, 0)), 60.0) - secondsToMove(B, 60.0);
    assertThat(same).isCloseTo(0.0, within(0.03));
  }

  private static double secondsToMove(ModelParameters parameters, double to) {
    Rig rig = new Rig(parameters, 1);
    rig.rest(30.0);
    rig.rest(50.0);
    double from = rig.unit.truth().outputPercent();
    rig.command(to);
    double seconds = 0.0;
    for (; Math.abs(rig.unit.truth().outputPercent() - from) < 0.5; seconds += 0.001) {
      rig.run(0.001);
    }
    return seconds;
  }

  // The standard deviation of 4000 draws is within 1/√(2·4000) = 1.1 % of the true one, by
  // one standard deviation; four of them are allowed.
  @Test
  void wornTrackIsNoisyInOnePlaceOnly() {
    SensorParameters worn = B.sensor().withNoise(0.01, new Worn(40.0, 60.0, 0.5));
    Sensor sensor = new Sensor(worn, new Noise(3));
    assertThat(deviation(sensor, 50.0)).isCloseTo(0.5, within(0.022));
    assertThat(deviation(sensor, 39.9)).isCloseTo(0.01, within(0.00045));
    assertThat(deviation(sensor, 60.0)).isCloseTo(0.01, within(0.00045));
  }

  private static double deviation(Sensor sensor, double percent) {
    double sum = 0.0;
    for (int i = 0; i < 4000; i++) {
      sensor.renewNoise();
      double off = sensor.noisy(percent) - percent;
      sum += off * off;
    }
    return Math.sqrt(sum / 4000);
  }

  // A first-order lag reaches 1 − 1/e of a step after its time constant (textbook).
  @Test
  void transmitterLagsByItsTimeConstant() {
    TransmitterParameters fine =
        new TransmitterParameters(B.transmitter().range(), 0.5, 24, 3.8, 20.5, 0.0, 0.0);
    Transmitter transmitter = new Transmitter(fine, 0.001, 20.0);
    for (int i = 0; i < 500; i++) {
      transmitter.step(70.0);
    }
    double percent = (transmitter.milliamps() - 4.0) / 16.0 * 100.0;
    assertThat(percent).isCloseTo(20.0 + 50.0 * (1.0 - Math.exp(-1.0)), within(0.001));
  }

  // A quarter of a period of 50 Hz is 5 ms, of 60 Hz 4.1667 ms.
  @ParameterizedTest
  @CsvSource({"50, 0.005", "60, 0.0041666667"})
  void humIsASineAtTheInputOnly(double hertz, double quarter) {
    InputLoop loop = new InputLoop(new InputParameters(24, 250, 0, 0, 0.2, hertz, 0), new Noise(1));
    loop.command(12.0);
    assertThat(loop.inputMilliamps(0.0, false)).isEqualTo(12.0);
    assertThat(loop.inputMilliamps(quarter, false)).isCloseTo(12.2, within(1e-6));
    assertThat(loop.inputMilliamps(3 * quarter, false)).isCloseTo(11.8, within(1e-6));
    assertThat(loop.loopMilliamps()).isEqualTo(12.0);
  }

  /** 100,000 normal draws: mean and deviation within five of their own standard errors. */
  @Test
  void noiseOnTheSignalIsRandomAndStaysOutOfTheLoop() {
    InputLoop loop = new InputLoop(new InputParameters(24, 250, 0, 0, 0, 50, 0.3), new Noise(1));
    loop.command(12.0);
    SummaryStatistics seen = new SummaryStatistics();
    for (int i = 0; i < 100_000; i++) {
      seen.addValue(loop.inputMilliamps(i / 1000.0, false));
    }
    assertThat(seen.getMean()).isCloseTo(12.0, within(5 * 0.3 / Math.sqrt(100_000)));
    assertThat(seen.getStandardDeviation()).isCloseTo(0.3, within(5 * 0.3 / Math.sqrt(200_000)));
    assertThat(loop.loopMilliamps()).isEqualTo(12.0);
  }

  @Test
  void groundOffsetThatFollowsTheMotorShiftsItsStops() {
    InputLoop loop =
        new InputLoop(new InputParameters(24, 250, 0.01, 0.16, 0, 50, 0), new Noise(1));
    loop.command(12.0);
    assertThat(loop.inputMilliamps(1.0, false)).isCloseTo(12.01, within(1e-12));
    assertThat(loop.inputMilliamps(1.0, true)).isCloseTo(12.17, within(1e-12));

    // 0.048 mA is 0.3 %: while it runs it seeks a position 0.3 % higher, either way.
    ModelParameters follows = B.with(new InputParameters(24, 250, 0, 0.048, 0, 50, 0));
    List<Rig.Point> sound = new Rig(B, 1).travel(0, 50, 100);
    List<Rig.Point> shifted = new Rig(follows, 1).travel(0, 50, 100);
    assertThat(shifted.get(1).up() - sound.get(1).up()).isCloseTo(0.3, within(0.12));
    assertThat(shifted.get(1).down() - sound.get(1).down()).isCloseTo(0.3, within(0.12));
  }

  @Test
  void motorWithSwappedLeadsRunsToTheWrongStopAndStands() {
    Rig rig = new Rig(B.with(B.motor().withLeads(true)), 1);
    rig.command(60.0);
    rig.run(20.0);
    assertThat(rig.unit.stemDegrees()).isEqualTo(-2.0);
    assertThat(rig.unit.closedMade()).isTrue();
    // 0.1 A idle and four times 0.8 A: it stands and is still driven.
    assertThat(rig.unit.motorAmperes()).isCloseTo(3.3, within(1e-9));
  }

  // Each trips at its angle and resets the differential further back.
  @ParameterizedTest
  @CsvSource({"true, 88.0, 1.5", "false, 2.0, 0.5"})
  void switchTripsAndResetsAtItsAngles(boolean openEnd, double cam, double differential) {
    double out = openEnd ? 1.0 : -1.0;
    CamParameters cams = new CamParameters(-1, 91, 2, 88, differential, 0);
    CamSwitch contact = new CamSwitch(openEnd, cam, cams, 0.001);
    contact.turn(cam - out * 0.001, 1);
    assertThat(contact.made(1)).isFalse();
    contact.turn(cam + out * 0.001, 2);
    assertThat(contact.made(2)).isTrue();
    contact.turn(cam - out * (differential - 0.001), 3);
    assertThat(contact.made(3)).isTrue();
    contact.turn(cam - out * (differential + 0.001), 4);
    assertThat(contact.made(4)).isFalse();
  }
}

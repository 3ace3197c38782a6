package org.benchstroke.core.model;

/**
 * From the gear to the stem, and to the sensor where it sits: play in the gear, linkage, slack at
 * the coupling, friction, the angle at which the stem was mounted. Angles in °.
 *
 * <p>The linkage: x = y + b(y/span), no error at closed and open.
 */
final class Train {
  private final Play gearPlay;
  private final Play sensorPlay;
  private final Play couplingPlay;
  private final Friction friction;
  private final Bow bend;
  private final double percent;
  private final double span;
  private final double quadrant;
  private final SensorParameters.Place place;
  private final boolean rigid;
  private double output;
  private double linked;
  private double stem;
  private double sensed;

  /** At rest in the middle of all play. */
  Train(MechanicsParameters mechanics, SensorParameters.Place place, double gear) {
    this.percent = mechanics.travel().degreesPerPercent();
    this.bend = mechanics.linkage().bend();
    this.span = mechanics.travel().spanDegrees();
    this.quadrant = mechanics.linkage().quadrantDegrees();
    this.place = place;
    this.rigid = rigid(mechanics);
    this.linked = valve(gear);
    this.gearPlay = new Play(mechanics.play().gearPercent() * percent, gear);
    this.couplingPlay = new Play(mechanics.play().couplingPercent() * percent, linked);
    this.friction = new Friction(mechanics.friction(), percent, linked);
    this.output = gear;
    this.stem = linked + quadrant;
    double seat = seat(gear);
    this.sensorPlay = new Play(mechanics.play().sensorPercent() * percent, seat);
    this.sensed = seat;
  }

  /** Whether all of it turns as one piece. */
  private static boolean rigid(MechanicsParameters m) {
    return m.play().equals(PlayParameters.NONE)
        && m.linkage().equals(LinkageParameters.NONE)
        && m.friction().stickPercent() == 0.0;
  }

  /** To be called whenever the gear has turned: all else stays as it was. */
  void turn(double gear) {
    if (rigid) {
      output = gear;
      stem = gear;
      sensed = gear;
      return;
    }
    double shaft = gearPlay.follow(gear);
    if (shaft != output) {
      output = shaft;
      linked = valve(shaft);
    }
    stem = friction.follow(couplingPlay.follow(linked)) + quadrant;
    sensed = sensorPlay.follow(seat(gear));
  }

  private double valve(double shaft) {
    return shaft + percent * bend.at(shaft / span);
  }

  private double seat(double gear) {
    return switch (place) {
      case GEAR -> gear;
      case OUTPUT -> output;
      case STEM -> stem;
    };
  }

  /** The output shaft, on which the cams sit. */
  double output() {
    return output;
  }

  double stem() {
    return stem;
  }

  /** What the sensor is turned to. */
  double sensed() {
    return sensed;
  }
}

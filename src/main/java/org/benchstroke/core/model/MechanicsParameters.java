package org.benchstroke.core.model;

/**
 * What lies between motor and stem: gear, output shaft, linkage, coupling, stem. Immutable.
 *
 * @param travel from stop to stop
 * @param play between its parts
 * @param linkage between output shaft and stem
 * @param friction of the stem
 * @param startPercent where the unit stands at first, % of span, 0..100
 */
public record MechanicsParameters(
    TravelParameters travel,
    PlayParameters play,
    LinkageParameters linkage,
    FrictionParameters friction,
    double startPercent)
    implements ModelParameters.Part {
  public MechanicsParameters {
    Require.within("start, %,", startPercent, 0, 100);
  }

  static MechanicsParameters baseline() {
    return new MechanicsParameters(
        new TravelParameters(90.0, -2.0, 92.0),
        PlayParameters.NONE,
        LinkageParameters.NONE,
        FrictionParameters.baseline(),
        40.0);
  }

  /** Another travel, with its stops. */
  public MechanicsParameters withTravel(TravelParameters other) {
    return new MechanicsParameters(other, play, linkage, friction, startPercent);
  }

  /** Other play, % of span: in the gear, at the sensor, at the coupling. */
  public MechanicsParameters withPlay(double gear, double sensor, double coupling) {
    PlayParameters other = new PlayParameters(gear, sensor, coupling);
    return new MechanicsParameters(travel, other, linkage, friction, startPercent);
  }

  /** A linkage that bends like an S, and another angle of the stem on it. */
  public MechanicsParameters withLinkage(double bendPercent, double quadrantDegrees) {
    Bow bend = new Bow(bendPercent, Bow.Shape.S);
    LinkageParameters other = new LinkageParameters(bend, quadrantDegrees);
    return new MechanicsParameters(travel, play, other, friction, startPercent);
  }

  /** Standing elsewhere at first, % of span. */
  public MechanicsParameters startingAt(double percent) {
    return new MechanicsParameters(travel, play, linkage, friction, percent);
  }

  public MechanicsParameters withFriction(FrictionParameters other) {
    return new MechanicsParameters(travel, play, linkage, other, startPercent);
  }

  /** The same friction along the whole travel. */
  public MechanicsParameters withFriction(double stickPercent, double slidePercent) {
    return withFriction(FrictionParameters.everywhere(stickPercent, slidePercent));
  }
}

package org.benchstroke.core.model;

/**
 * The angles at which the switches trip. Immutable.
 *
 * @param closedDegrees the end switch that cuts the motor when closing, °, −45..400
 * @param openDegrees the one that cuts it when opening, °, above the closed one
 * @param closedAuxiliaryDegrees the auxiliary switch near closed, °, −45..400
 * @param openAuxiliaryDegrees the auxiliary switch near open, °, −45..400
 * @param differentialDegrees how far back a switch resets, °, 0..20 (usual 0.5..3)
 * @param bounceSeconds how long a contact bounces, s, 0..0.1 (usual 0.001..0.005)
 */
public record CamParameters(
    double closedDegrees,
    double openDegrees,
    double closedAuxiliaryDegrees,
    double openAuxiliaryDegrees,
    double differentialDegrees,
    double bounceSeconds)
    implements ModelParameters.Part {
  public CamParameters {
    Require.within("closed switch, °,", closedDegrees, -45, 400);
    Require.within("open switch, °,", openDegrees, -45, 400);
    Require.below("closed switch", closedDegrees, "open switch", openDegrees);
    Require.within("closed auxiliary, °,", closedAuxiliaryDegrees, -45, 400);
    Require.within("open auxiliary, °,", openAuxiliaryDegrees, -45, 400);
    Require.within("switch differential, °,", differentialDegrees, 0, 20);
    Require.within("bounce, s,", bounceSeconds, 0, 0.1);
  }

  /** End switches 0.33° outside the span, the auxiliary ones 2° before them. */
  static CamParameters baseline() {
    return new CamParameters(-0.33, 90.33, 1.67, 88.33, 1.0, 0.003);
  }

  public CamParameters withOpen(double degrees) {
    return new CamParameters(
        closedDegrees,
        degrees,
        closedAuxiliaryDegrees,
        openAuxiliaryDegrees,
        differentialDegrees,
        bounceSeconds);
  }
}

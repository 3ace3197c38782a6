package org.benchstroke.bench;

/**
 * How an angle reference sits on the stem, and by how much that lets it be wrong. Immutable.
 *
 * @param eccentricityMillimetres how far the middle of its scale may lie beside the axis of the
 *     stem, mm; 0 where that can't be
 * @param radiusMillimetres at which its scale is read, mm, above 0 and more than the eccentricity
 * @param zeroDegrees ± how well it is known that it reads 0 where the valve is closed, °
 * @param couplingDegrees ± by how much play, give and misalignment of its coupling let it lie
 *     beside the stem, °
 */
public record Mounting(
    double eccentricityMillimetres,
    double radiusMillimetres,
    double zeroDegrees,
    double couplingDegrees) {

  /**
   * The most by which eccentricity makes it wrong, °: arcsin(e/r). In the triangle of the axis of
   * the stem, the middle of the scale and the place where the scale is read, the angle at that
   * place is the error, and the law of sines gives sin(error) = (e/r)·sin(turn): one wave over a
   * whole turn, whose phase nobody knows. (As a check: 0.1 mm on a scale of 100 mm across is 412
   * seconds of arc, the usual rule of 412 ÷ diameter for each micrometre.)
   */
  public double eccentricityDegrees() {
    return Math.toDegrees(Math.asin(eccentricityMillimetres / radiusMillimetres));
  }
}

package org.benchstroke.model;

/**
 * A small generator of pseudo-random numbers: the same seed gives the same numbers on every machine
 * and every version of Java. One thread.
 *
 * <p>Source: the SplitMix64 mixing steps (Steele, Lea, Flood 2014) and Marsaglia's polar method,
 * both from memory.
 */
public final class Noise {
  private static final double TO_UNIT = 0x1.0p-53;

  private long state;
  private double spare;
  private boolean hasSpare;

  public Noise(long seed) {
    this.state = seed;
  }

  /** Uniform within −1..1. */
  public double symmetric() {
    state += 0x9E3779B97F4A7C15L;
    long mixed = state;
    mixed = (mixed ^ (mixed >>> 30)) * 0xBF58476D1CE4E5B9L;
    mixed = (mixed ^ (mixed >>> 27)) * 0x94D049BB133111EBL;
    mixed = mixed ^ (mixed >>> 31);
    return 2.0 * ((mixed >>> 11) * TO_UNIT) - 1.0;
  }

  /** Normal with mean 0 and standard deviation 1. */
  public double normal() {
    if (hasSpare) {
      hasSpare = false;
      return spare;
    }
    double a;
    double b;
    double square;
    do {
      a = symmetric();
      b = symmetric();
      square = a * a + b * b;
    } while (square >= 1.0 || square == 0.0);
    double factor = Math.sqrt(-2.0 * StrictMath.log(square) / square);
    spare = b * factor;
    hasSpare = true;
    return a * factor;
  }
}

package org.benchstroke.core.model;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ContinuousSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;

/**
 * Pseudo-random numbers: the same seed gives the same numbers on every machine and every version of
 * Java. The noise of a signal is drawn a thousand times per second, so speed matters: a ziggurat
 * over SplitMix64. One thread.
 */
public final class Noise {
  private final UniformRandomProvider uniform;
  private final ContinuousSampler normal;

  public Noise(long seed) {
    this.uniform = RandomSource.SPLIT_MIX_64.create(seed);
    this.normal = ZigguratSampler.NormalizedGaussian.of(uniform);
  }

  /** Uniform within −1..1. */
  public double symmetric() {
    return 2.0 * uniform.nextDouble() - 1.0;
  }

  /** Normal with mean 0 and standard deviation 1. */
  public double normal() {
    return normal.sample();
  }
}

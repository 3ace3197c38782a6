package org.benchstroke.simulator;

import java.util.List;
import org.benchstroke.core.model.Noise;
import org.benchstroke.core.model.UnitModel;
import org.benchstroke.io.instrument.Channel;

/**
 * One specimen of a simulated instrument's channel: its own errors, which stay the same and lie
 * within half of what its data sheet allows (or its certificate leaves open), what it is off by
 * beyond that if it is out of calibration, and its noise, which does not stay the same. One thread.
 */
final class Specimen {
  private static final double SHARE = 0.5;

  private final Channel channel;
  private final double low;
  private final double high;
  private final double gain;
  private final double offset;
  private final Noise noise;
  private final Manner manner;

  Specimen(Channel channel, long seed, List<InstrumentError> errors) {
    this.channel = channel;
    this.low = channel.low().orElse(Double.NEGATIVE_INFINITY);
    this.high = channel.high().orElse(Double.POSITIVE_INFINITY);
    this.noise = new Noise(seed);
    this.manner =
        errors.stream().map(InstrumentError::manner).reduce((a, b) -> b).orElse(Manner.USUAL);
    double beyond = errors.stream().mapToDouble(InstrumentError::gainPercent).sum() / 100.0;
    double ofReading = certified() ? 0.0 : channel.accuracy().percentOfReading() / 100.0;
    double ofAll =
        channel
            .certified()
            .map(c -> c.standardAt(0.0))
            .orElseGet(() -> channel.accuracy().halfWidthAt(0.0));
    this.gain = 1.0 + SHARE * noise.symmetric() * ofReading + beyond;
    this.offset =
        SHARE * noise.symmetric() * ofAll
            + errors.stream().mapToDouble(InstrumentError::offset).sum();
  }

  /** Whether its errors are those of a certificate, not of a data sheet. */
  private boolean certified() {
    return channel.certified().isPresent();
  }

  /** In what it behaves otherwise than its data sheet lets expect. */
  Manner manner() {
    return manner;
  }

  /** The unit of its values. */
  String unit() {
    return channel.unit();
  }

  /** Whether it can be set to the value. */
  boolean reaches(double value) {
    return value >= low && value <= high;
  }

  /** The setting that it keeps of a wanted value: a whole number of its steps. */
  double setting(double wanted) {
    return stepped(wanted);
  }

  /** The setting nearest to the wanted one that it can be set to. */
  double nearest(double wanted) {
    return stepped(Math.max(low, Math.min(high, wanted)));
  }

  /** What it really makes of a setting. */
  double made(double setting) {
    return Math.max(low, setting * gain + offset + channel.correctionAt(setting));
  }

  /** What it shows of a true value: its errors, a half step of noise, its steps and its ends. */
  double shown(double truth) {
    double off = truth * gain + offset - channel.correctionAt(truth);
    double read = Math.max(low, off) + 0.5 * channel.resolution() * noise.normal();
    return Math.max(low, Math.min(high, stepped(read)));
  }

  /** What there is at the terminals of a position transmitter, mA. */
  double atFeedbackTerminals(UnitModel unit) {
    boolean echo =
        switch (manner.echo()) {
          case NEVER -> false;
          case WHILE_OFF -> !unit.motorPower();
          case ALWAYS -> true;
        };
    return echo ? unit.loopMilliamps() : unit.feedbackMilliamps();
  }

  private double stepped(double value) {
    double step = channel.resolution();
    return step > 0.0 ? Math.rint(value / step) * step : value;
  }
}

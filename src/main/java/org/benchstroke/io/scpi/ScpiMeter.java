package org.benchstroke.io.scpi;

import java.util.Optional;
import java.util.function.DoubleFunction;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Voltage;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;

/**
 * Measures with one of the questions {@code MEASure:…?} (SCPI-1999 Volume 2, MEASure). The runner's
 * thread owns it.
 *
 * @param <Q> what it measures
 */
public final class ScpiMeter<Q> implements Instrument {
  private static final double MILLIAMPS_PER_AMP = 1000.0;

  private final ScpiTalk talk;
  private final Channel channel;
  private final String question;
  private final String unit;
  private final double perUnit;
  private final DoubleFunction<Q> quantity;

  private ScpiMeter(
      ScpiTalk talk,
      Channel channel,
      String question,
      String unit,
      double perUnit,
      DoubleFunction<Q> quantity) {
    this.talk = talk;
    this.channel = channel;
    this.question = question;
    this.unit = unit;
    this.perUnit = perUnit;
    this.quantity = quantity;
  }

  /**
   * A meter of the loop's current. Opens nothing yet.
   *
   * @param name its name in the bench file
   * @param line the connection, maybe shared with a source in the same box
   * @param channel what the data sheet says, in mA
   */
  public static ScpiMeter<Current> loop(String name, ScpiLine line, Channel channel) {
    require("loop meter", channel, "mA");
    return new ScpiMeter<>(
        new ScpiTalk(name, line),
        channel,
        "MEASure:CURRent?",
        "A",
        MILLIAMPS_PER_AMP,
        Current::ofMilliamps);
  }

  /**
   * A meter of the supply's voltage. Opens nothing yet.
   *
   * @param name its name in the bench file
   * @param line the connection
   * @param channel what the data sheet says, in V
   * @param alternating whether it is an alternating voltage
   */
  public static ScpiMeter<Voltage> supply(
      String name, ScpiLine line, Channel channel, boolean alternating) {
    require("supply meter", channel, "V");
    String question = alternating ? "MEASure:VOLTage:AC?" : "MEASure:VOLTage?";
    ScpiTalk talk = new ScpiTalk(name, line);
    return new ScpiMeter<>(talk, channel, question, "V", 1.0, Voltage::ofVolts);
  }

  private static void require(String role, Channel channel, String unit) {
    if (!channel.unit().equals(unit)) {
      throw new IllegalArgumentException(
          "a " + role + "'s channel is in " + unit + ", not " + channel.unit());
    }
  }

  @Override
  public String name() {
    return talk.name();
  }

  @Override
  public void connect(Deadline deadline) throws InstrumentException {
    talk.line().open(name(), deadline);
  }

  @Override
  public Optional<Identity> identify(Deadline deadline) throws InstrumentException {
    return talk.identify(deadline);
  }

  @Override
  public void disconnect() {
    talk.line().close();
  }

  /** Asks once. */
  public Reading<Q> read(Deadline deadline) throws InstrumentException {
    ScpiTalk.Answer answered = talk.ask(question, unit, deadline);
    double value = answered.value() * perUnit;
    return new Reading<>(
        quantity.apply(value),
        channel.doubtsOf(value),
        answered.reply().text(),
        answered.reply().askedNanos(),
        answered.reply().answeredNanos());
  }
}

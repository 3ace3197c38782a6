package org.benchstroke.instrument.scpi;

import java.util.Optional;
import org.benchstroke.clock.Deadline;
import org.benchstroke.instrument.Channel;
import org.benchstroke.instrument.Identity;
import org.benchstroke.instrument.Instrument;
import org.benchstroke.instrument.InstrumentException;
import org.benchstroke.instrument.LoopMeter;
import org.benchstroke.instrument.Reading;
import org.benchstroke.quantity.Current;

/**
 * Measures the loop's current with {@code MEASure:CURRent?} (SCPI-1999 Volume 2, MEASure). The
 * runner's thread owns it.
 */
public final class ScpiLoopMeter implements Instrument, LoopMeter {
  private static final String MEASURE = "MEASure:CURRent?";
  private static final double MILLIAMPS_PER_AMP = 1000.0;

  private final ScpiTalk talk;
  private final Channel channel;

  /**
   * Opens nothing yet.
   *
   * @param name its name in the bench file
   * @param line the connection, maybe shared with a source in the same box
   * @param channel what the data sheet says, in mA
   */
  public ScpiLoopMeter(String name, ScpiLine line, Channel channel) {
    if (!channel.unit().equals("mA")) {
      throw new IllegalArgumentException("a loop meter's channel is in mA, not " + channel.unit());
    }
    this.talk = new ScpiTalk(name, line);
    this.channel = channel;
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

  @Override
  public Reading<Current> read(Deadline deadline) throws InstrumentException {
    ScpiTalk.Answered amps = talk.ask(MEASURE, "A", deadline);
    Current current = Current.ofMilliamps(amps.value() * MILLIAMPS_PER_AMP);
    return new Reading<>(
        current,
        channel.qualityAt(current.milliamps()),
        amps.reply().text(),
        amps.reply().askedNanos(),
        amps.reply().answeredNanos());
  }
}

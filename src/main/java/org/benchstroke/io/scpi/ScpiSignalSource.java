package org.benchstroke.io.scpi;

import java.util.Optional;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.TextReply;

/**
 * Makes the loop's current with {@code SOURce:CURRent} and {@code OUTPut} (SCPI-1999 Volume 2).
 * Each command is followed by a look into the error queue, and each setting is read back. The
 * runner's thread owns it.
 */
public final class ScpiSignalSource implements Instrument, SignalSource {
  private static final String CURRENT = "SOURce:CURRent";
  private static final String OUTPUT = "OUTPut";
  private static final double MILLIAMPS_PER_AMP = 1000.0;
  private static final int FEWEST_DECIMALS = 6;
  private static final int MOST_DECIMALS = 9;

  private final ScpiTalk talk;
  private final Current lowest;
  private final Current highest;
  private final double resolutionMilliamps;

  /**
   * Opens nothing yet.
   *
   * @param name its name in the bench file
   * @param line the connection, maybe shared with a meter in the same box
   * @param channel what the data sheet says, in mA, with its low and high end
   */
  public ScpiSignalSource(String name, ScpiLine line, Channel channel) {
    if (!channel.unit().equals("mA") || channel.low().isEmpty() || channel.high().isEmpty()) {
      throw new IllegalArgumentException(
          "a signal source's channel is in mA and states its lowest and its highest current");
    }
    this.talk = new ScpiTalk(name, line);
    this.lowest = Current.ofMilliamps(channel.low().getAsDouble());
    this.highest = Current.ofMilliamps(channel.high().getAsDouble());
    this.resolutionMilliamps = channel.resolution();
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
  public Current lowest() {
    return lowest;
  }

  @Override
  public Current highest() {
    return highest;
  }

  /**
   * Sets the current, then switches the output on if it is off: never on with the setting of
   * before.
   *
   * <p>The reading's stamps enclose the instant at which the current changed at the terminals: from
   * the command's sending until the instrument had answered that it was carried out. The value is
   * read back after that. A source has no end of range to be saturated at: beyond it, it refuses.
   */
  @Override
  public Reading<Current> apply(Current current, Deadline deadline) throws InstrumentException {
    String amps = Numbers.fixed(current.amps(), decimals());
    String command = CURRENT + " " + amps;
    requireInRange(current, command);
    TextReply done = talk.tell(command, deadline);
    if (!talk.askWhether(OUTPUT + "?", deadline)) {
      done = talk.tell(OUTPUT + " ON", deadline);
      requireOutput(true, deadline);
    }
    ScpiTalk.Answer back = talk.ask(CURRENT + "?", "A", deadline);
    Current set = Current.ofMilliamps(back.value() * MILLIAMPS_PER_AMP);
    Current sent = Current.ofMilliamps(Double.parseDouble(amps) * MILLIAMPS_PER_AMP);
    requireSame(sent, set, command, back.reply());
    return new Reading<>(
        set, Doubt.NONE, back.reply().text(), done.askedNanos(), done.answeredNanos());
  }

  @Override
  public Optional<State> held(Deadline deadline) throws InstrumentException {
    boolean on = talk.askWhether(OUTPUT + "?", deadline);
    double amps = talk.ask(CURRENT + "?", "A", deadline).value();
    return Optional.of(new State(Current.ofMilliamps(amps * MILLIAMPS_PER_AMP), on));
  }

  @Override
  public void release(Deadline deadline) throws InstrumentException {
    talk.tell(OUTPUT + " OFF", deadline);
    requireOutput(false, deadline);
  }

  private void requireInRange(Current current, String command) throws InstrumentException {
    if (current.compareTo(lowest) < 0 || current.compareTo(highest) > 0) {
      throw talk.line()
          .refused(
              name(),
              command + " -> not sent",
              current + " is outside its range of " + lowest + " to " + highest);
    }
  }

  private void requireOutput(boolean on, Deadline deadline) throws InstrumentException {
    if (talk.askWhether(OUTPUT + "?", deadline) != on) {
      String wanted = OUTPUT + (on ? " ON" : " OFF");
      throw talk.line()
          .badReply(
              name(),
              OUTPUT + "? -> " + (on ? "0" : "1"),
              "after " + wanted + " the instrument says that its output is " + (on ? "off" : "on"));
    }
  }

  private void requireSame(Current wanted, Current set, String command, TextReply reply)
      throws InstrumentException {
    double away = Math.abs(set.minus(wanted).milliamps());
    if (away > resolutionMilliamps + 1e-9) {
      InstrumentException failure =
          talk.line()
              .badReply(
                  name(),
                  command + "; " + ScpiTalk.exchange(CURRENT + "?", reply),
                  "the setting reads back as "
                      + set
                      + ", not "
                      + wanted
                      + "; its resolution is "
                      + Numbers.plain(resolutionMilliamps)
                      + " mA");
      throw SignalSource.readBackOtherwise(failure, wanted, set);
    }
  }

  /** Enough of an ampere's decimals to hold the resolution. */
  private int decimals() {
    double amps = resolutionMilliamps / MILLIAMPS_PER_AMP;
    int needed = amps > 0.0 ? (int) Math.ceil(-Math.log10(amps) - 1e-9) : MOST_DECIMALS;
    return Math.max(FEWEST_DECIMALS, Math.min(needed, MOST_DECIMALS));
  }
}

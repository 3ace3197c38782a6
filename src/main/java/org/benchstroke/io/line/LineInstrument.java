package org.benchstroke.io.line;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.core.quantity.Voltage;
import org.benchstroke.io.instrument.AngleReference;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.LoopMeter;
import org.benchstroke.io.instrument.MotorPower;
import org.benchstroke.io.instrument.PositionTransmitter;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.RolePlayer;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.SupplyMeter;
import org.benchstroke.io.instrument.SwitchReader;
import org.benchstroke.io.instrument.TextLine;
import org.benchstroke.io.instrument.TextReply;

/**
 * An instrument whose every word stands in the bench file. It plays each role for which it has
 * words. The runner's thread owns it.
 */
public final class LineInstrument implements RolePlayer {
  private final LineVoice voice;
  private final LineWords words;
  private final Map<Role, Channel> channels;
  private final SignalRange feedback;

  /**
   * Opens nothing yet.
   *
   * @param name its name in the bench file
   * @param line the connection, maybe shared with other instruments
   * @param words what it understands
   * @param channels what its data sheet says, for each role that measures
   * @param feedback from the mA of a position transmitter to the position
   */
  public LineInstrument(
      String name,
      TextLine line,
      LineWords words,
      Map<Role, Channel> channels,
      SignalRange feedback) {
    this.voice = new LineVoice(name, line, words.talk());
    this.words = words;
    this.channels = Map.copyOf(channels);
    this.feedback = feedback;
  }

  @Override
  public String name() {
    return voice.name();
  }

  @Override
  public void connect(Deadline deadline) throws InstrumentException {
    voice.open(deadline);
  }

  @Override
  public Optional<Identity> identify(Deadline deadline) throws InstrumentException {
    if (words.identity().isEmpty()) {
      return Optional.empty();
    }
    LineWords.Question question = words.identity().get();
    TextReply reply = voice.ask(question.ask(), deadline);
    Matcher groups = voice.matched(question.ask(), question.reply(), reply);
    return Optional.of(
        new Identity(
            group(groups, "maker"),
            group(groups, "model"),
            group(groups, "serial"),
            group(groups, "firmware"),
            reply.text()));
  }

  @Override
  public void disconnect() {
    voice.close();
  }

  /** The role, if it has the words for it; likewise for each role below. */
  @Override
  public Optional<SignalSource> signalSource() {
    return words
        .source()
        .map(
            source ->
                new LineSource(
                    voice,
                    source,
                    words.values().get(Role.SIGNAL_SOURCE),
                    channels.get(Role.SIGNAL_SOURCE)));
  }

  @Override
  public Optional<SupplyMeter> supplyMeter() {
    return value(Role.SUPPLY_METER)
        .map(
            value ->
                deadline -> {
                  Measurement m = measure(value, deadline);
                  return m.as(Voltage.ofVolts(m.value()), channels.get(Role.SUPPLY_METER));
                });
  }

  @Override
  public Optional<LoopMeter> loopMeter() {
    return value(Role.LOOP_METER)
        .map(
            value ->
                deadline -> {
                  Measurement m = measure(value, deadline);
                  return m.as(Current.ofMilliamps(m.value()), channels.get(Role.LOOP_METER));
                });
  }

  @Override
  public Optional<PositionTransmitter> positionTransmitter() {
    return value(Role.POSITION_TRANSMITTER)
        .map(
            value ->
                deadline -> {
                  Measurement m = measure(value, deadline);
                  return m.as(position(m.value()), channels.get(Role.POSITION_TRANSMITTER));
                });
  }

  @Override
  public Optional<AngleReference> angleReference() {
    return value(Role.ANGLE_REFERENCE)
        .map(
            value ->
                deadline -> {
                  Measurement m = measure(value, deadline);
                  return m.as(Angle.ofDegrees(m.value()), channels.get(Role.ANGLE_REFERENCE));
                });
  }

  @Override
  public Optional<SwitchReader> switchReader() {
    return words.switches().map(switches -> deadline -> switches(switches, deadline));
  }

  @Override
  public Optional<MotorPower> motorPower() {
    return words.power().map(power -> (on, deadline) -> power(power, on, deadline));
  }

  private Optional<LineWords.Value> value(Role role) {
    return Optional.ofNullable(words.values().get(role));
  }

  private Position position(double value) {
    boolean milliamps = channels.get(Role.POSITION_TRANSMITTER).unit().equals("mA");
    return milliamps ? feedback.positionAt(Current.ofMilliamps(value)) : Position.ofPercent(value);
  }

  private Measurement measure(LineWords.Value value, Deadline deadline) throws InstrumentException {
    LineWords.Question question = value.question();
    TextReply reply = voice.ask(question.ask(), deadline);
    double number = voice.number(question.ask(), question.reply(), reply);
    return new Measurement(value.scale().of(number), reply);
  }

  private Reading<Map<LimitSwitch, Boolean>> switches(
      LineWords.Switches switches, Deadline deadline) throws InstrumentException {
    LineWords.Question question = switches.question();
    TextReply reply = voice.ask(question.ask(), deadline);
    Matcher groups = voice.matched(question.ask(), question.reply(), reply);
    Map<LimitSwitch, Boolean> made = new EnumMap<>(LimitSwitch.class);
    for (Map.Entry<LimitSwitch, String> each : switches.groups().entrySet()) {
      String text = group(groups, each.getValue());
      boolean is = text.equals(switches.made());
      if (!is && !text.equals(switches.notMade())) {
        throw voice.bad(
            question.ask(),
            reply,
            "the "
                + each.getKey().key()
                + " switch reads \""
                + text
                + "\", neither \""
                + switches.made()
                + "\" nor \""
                + switches.notMade()
                + "\"");
      }
      made.put(each.getKey(), is);
    }
    return new Measurement(0.0, reply).as(made);
  }

  /** Switches once, then asks: a reply only says that the command was understood. */
  private void power(LineWords.Power power, boolean on, Deadline deadline)
      throws InstrumentException {
    String command = on ? power.on() : power.off();
    voice.tell(command, power.setReply(), deadline);
    TextReply reply = voice.ask(power.ask(), deadline);
    Pattern wanted = on ? power.replyOn() : power.replyOff();
    Pattern other = on ? power.replyOff() : power.replyOn();
    if (!wanted.matcher(reply.text()).matches()) {
      boolean known = other.matcher(reply.text()).matches();
      throw voice.bad(
          power.ask(),
          reply,
          known
              ? "after " + command + " the relay is still " + (on ? "off" : "on")
              : "neither the reply for on nor the one for off");
    }
  }

  /** A group that the pattern may not have, or that may have matched nothing. */
  private static String group(Matcher groups, String name) {
    boolean there = groups.pattern().pattern().contains("(?<" + name + ">");
    return there ? Optional.ofNullable(groups.group(name)).map(String::strip).orElse("") : "";
  }

  /** A value in the channel's unit, not yet in its type. */
  private record Measurement(double value, TextReply reply) {
    <T> Reading<T> as(T typed, Channel channel) {
      return new Reading<>(
          typed, channel.doubtsOf(value), reply.text(), reply.askedNanos(), reply.answeredNanos());
    }

    <T> Reading<T> as(T typed) {
      return new Reading<>(
          typed, Doubt.NONE, reply.text(), reply.askedNanos(), reply.answeredNanos());
    }
  }
}

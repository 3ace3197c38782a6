package org.benchstroke.io.line;

import java.util.Optional;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.TextReply;

/**
 * Makes the loop's current by the commands of a bench file. Nothing is set twice: a command whose
 * reply is missing may have taken effect, and only the next exchange can tell. The runner's thread.
 */
final class LineSource implements SignalSource {
  private final LineVoice voice;
  private final LineWords.Source words;
  private final LineWords.Value back;
  private final Current lowest;
  private final Current highest;
  private final double resolutionMilliamps;

  LineSource(LineVoice voice, LineWords.Source words, LineWords.Value back, Channel channel) {
    this.voice = voice;
    this.words = words;
    this.back = back;
    this.lowest = Current.ofMilliamps(channel.low().orElseThrow());
    this.highest = Current.ofMilliamps(channel.high().orElseThrow());
    this.resolutionMilliamps = channel.resolution();
  }

  @Override
  public Current lowest() {
    return lowest;
  }

  @Override
  public Current highest() {
    return highest;
  }

  @Override
  public boolean opensLoop() {
    return words.output().isPresent();
  }

  /**
   * Sets the current, then switches the output on if it is off, then reads back. The stamps run
   * from the last command that changed the current to what confirmed it.
   */
  @Override
  public Reading<Current> apply(Current current, Deadline deadline) throws InstrumentException {
    double number = words.scale().back(current.milliamps());
    String command = words.set().of(number);
    if (current.compareTo(lowest) < 0 || current.compareTo(highest) > 0) {
      throw voice.refused(
          command + " -> not sent",
          current + " is outside its range of " + lowest + " to " + highest);
    }
    TextReply done = voice.tell(command, words.setReply(), deadline);
    if (words.output().isPresent()) {
      LineWords.Output output = words.output().get();
      if (!state(output, deadline).on()) {
        done = voice.tell(output.on(), words.setReply(), deadline);
        requireOutput(output, true, deadline);
      }
    }
    TextReply reply = voice.ask(back.question().ask(), deadline);
    double found = back.scale().of(number(reply));
    Current set = Current.ofMilliamps(found);
    requireSame(current, set, command, reply);
    long answered = words.setReply().isPresent() ? done.answeredNanos() : reply.answeredNanos();
    return new Reading<>(set, Doubt.NONE, reply.text(), done.askedNanos(), answered);
  }

  /** Some tell that the output is off in the place of the setting. */
  @Override
  public Optional<SignalSource.State> held(Deadline deadline) throws InstrumentException {
    if (words.output().isPresent() && !state(words.output().get(), deadline).on()) {
      return Optional.of(new SignalSource.State(Current.ofMilliamps(0.0), false));
    }
    TextReply reply = voice.ask(back.question().ask(), deadline);
    return Optional.of(
        new SignalSource.State(Current.ofMilliamps(back.scale().of(number(reply))), true));
  }

  @Override
  public void release(Deadline deadline) throws InstrumentException {
    if (words.output().isEmpty()) {
      throw voice.refused(
          "nothing sent", "the bench file names no command that opens the loop (off)");
    }
    LineWords.Output output = words.output().get();
    voice.tell(output.off(), words.setReply(), deadline);
    requireOutput(output, false, deadline);
  }

  private double number(TextReply reply) throws InstrumentException {
    LineWords.Question question = back.question();
    return voice.number(question.ask(), question.reply(), reply);
  }

  /** What it says of its output. */
  private record State(boolean on, String question, TextReply reply) {}

  private State state(LineWords.Output output, Deadline deadline) throws InstrumentException {
    String question = output.ask().orElse(back.question().ask());
    TextReply reply = voice.ask(question, deadline);
    if (output.replyOff().matcher(reply.text()).matches()) {
      return new State(false, question, reply);
    }
    voice.matched(question, output.replyOn().orElse(back.question().reply()), reply);
    return new State(true, question, reply);
  }

  private void requireOutput(LineWords.Output output, boolean on, Deadline deadline)
      throws InstrumentException {
    State state = state(output, deadline);
    if (state.on() != on) {
      throw voice.bad(
          state.question(),
          state.reply(),
          "after "
              + (on ? output.on() : output.off())
              + " the instrument says that its output is "
              + (state.on() ? "on" : "off"));
    }
  }

  private void requireSame(Current wanted, Current set, String command, TextReply reply)
      throws InstrumentException {
    double away = Math.abs(set.minus(wanted).milliamps());
    if (away > resolutionMilliamps + 1e-9) {
      InstrumentException failure =
          voice.bad(
              command + "; " + back.question().ask(),
              reply,
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
}

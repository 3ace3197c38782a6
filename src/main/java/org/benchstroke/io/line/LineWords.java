package org.benchstroke.io.line;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.Talk;

/**
 * What an ask-and-answer instrument understands, word for word. A reply must match its pattern from
 * end to end. Immutable.
 *
 * @param talk how messages look
 * @param identity the question for its identity, with at least one of the groups {@code maker},
 *     {@code model}, {@code serial}, {@code firmware}
 * @param source as a signal source
 * @param values the question of each role that reads a value; of the source, its read-back
 * @param switches as the reader of the unit's switches
 * @param power as the switch of the motor supply
 */
public record LineWords(
    LineTalk talk,
    Optional<Question> identity,
    Optional<Source> source,
    Map<Role, Value> values,
    Optional<Switches> switches,
    Optional<Power> power)
    implements Talk {
  public static final Language LANGUAGE =
      new Language("line", true, LineWordsReader::keys, LineWordsReader::read);

  /** The groups of an identity. */
  public static final java.util.List<String> IDENTITY_GROUPS =
      java.util.List.of("maker", "model", "serial", "firmware");

  public LineWords {
    Map<Role, Value> sorted = new EnumMap<>(Role.class);
    sorted.putAll(values);
    values = Collections.unmodifiableMap(sorted);
  }

  @Override
  public Language language() {
    return LANGUAGE;
  }

  /**
   * A question.
   *
   * @param ask what is sent
   * @param reply what it answers
   */
  public record Question(String ask, Pattern reply) {}

  /**
   * The question for a value: the group {@code value} holds the number.
   *
   * @param question the question
   * @param scale from the number to the channel's unit
   */
  public record Value(Question question, Scale scale) {}

  /**
   * From a number in an instrument's words to the channel's unit and back.
   *
   * @param factor channel unit per number, not 0
   * @param shift what the number 0 means, in the channel's unit
   */
  public record Scale(double factor, double shift) {
    /** The same. */
    public static final Scale ONE = new Scale(1.0, 0.0);

    /** In the channel's unit. */
    public double of(double number) {
      return number * factor + shift;
    }

    /** The number that stands for a value. */
    public double back(double value) {
      return (value - shift) / factor;
    }
  }

  /**
   * A signal source.
   *
   * @param set the command that sets the current
   * @param scale from the number in it to mA
   * @param setReply what it answers to set, on and off; empty if nothing
   * @param output how its output is switched; empty if it is always on
   */
  public record Source(
      Template set, Scale scale, Optional<Pattern> setReply, Optional<Output> output) {}

  /**
   * The output of a source. Where the question for its state is the one for the value, a source
   * that is off answers it with {@code replyOff}.
   *
   * @param on switches it on
   * @param off switches it off
   * @param ask asks whether it is on; empty if the question for the value tells it
   * @param replyOn the answer while it is on; empty if any value means on
   * @param replyOff the answer while it is off
   */
  public record Output(
      String on, String off, Optional<String> ask, Optional<Pattern> replyOn, Pattern replyOff) {}

  /**
   * Switches, all in one reply.
   *
   * @param question the question
   * @param groups the group of each wired switch
   * @param made the text of a group that means made
   * @param notMade the text that means not made
   */
  public record Switches(
      Question question, Map<LimitSwitch, String> groups, String made, String notMade) {
    public Switches {
      groups = Map.copyOf(groups);
    }
  }

  /**
   * A relay.
   *
   * @param on switches it on
   * @param off switches it off
   * @param setReply what it answers to both; empty if nothing
   * @param ask asks for its state
   * @param replyOn the answer while it is on
   * @param replyOff the answer while it is off
   */
  public record Power(
      String on,
      String off,
      Optional<Pattern> setReply,
      String ask,
      Pattern replyOn,
      Pattern replyOff) {}
}

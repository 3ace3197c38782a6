package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleSupplier;
import java.util.regex.Pattern;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.model.UnitModel;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.line.LineWords;
import org.benchstroke.io.line.Template;

/**
 * Plays an ask-and-answer instrument by the very words of its bench file, at a simulated unit, so
 * that any such file can be tried without the instrument. One thread at a time.
 */
final class LinePlayer {
  private static final int MOST_DECIMALS = 7;

  private final InstrumentSpec spec;
  private final LineWords words;
  private final Map<Role, Specimen> specimens;
  private final UnitModel unit;
  private final Around around;
  private final Map<Role, DoubleSupplier> shown = new EnumMap<>(Role.class);
  private double setMilliamps;
  private boolean on;

  /**
   * What is around the instrument.
   *
   * @param relay its relay for the motor supply, if it has one
   * @param converters where the converters of its channels are kept
   * @param feedback the unit's feedback range, for instruments that show %
   */
  record Around(SimulatedRelay relay, Converters converters, SignalRange feedback) {}

  LinePlayer(InstrumentSpec spec, Map<Role, Specimen> specimens, UnitModel unit, Around around) {
    this.specimens = specimens;
    this.spec = spec;
    this.words = spec.talk(LineWords.class).orElseThrow();
    this.unit = unit;
    this.around = around;
    words
        .values()
        .keySet()
        .forEach(
            role ->
                shown.put(role, around.converters().of(specimens.get(role), () -> truth(role))));
    this.on = words.source().isPresent() && words.source().get().output().isEmpty();
  }

  /** A new connection to it. */
  ByteSession connect() {
    return new LineSession(words.talk(), this::answer);
  }

  /** The reply to a command; nothing is an empty text. */
  private String answer(String command) {
    if (words.talk().atOpening().contains(command)) {
      return done(words.talk().atOpeningReply());
    }
    if (words.identity().map(q -> q.ask().equals(command)).orElse(false)) {
      return identity(words.identity().get().reply());
    }
    return source(command)
        .or(() -> power(command))
        .or(() -> switches(command))
        .or(() -> values(command))
        .orElseGet(this::refusal);
  }

  private static String done(Optional<Pattern> reply) {
    return reply.map(ReplySample::of).orElse("");
  }

  /** The first of the errors, or nothing. */
  private String refusal() {
    return words.talk().errors().stream()
        .map(error -> ReplySample.of(Pattern.compile(error.pattern() + ".*")))
        .findFirst()
        .orElse("");
  }

  private String identity(Pattern reply) {
    return ReplySample.of(
        reply,
        List.of(
            Map.of(
                "maker", spec.maker(),
                "model", spec.model(),
                "serial", spec.serial(),
                "firmware", "1.0")));
  }

  /** What it answers to a command of a source; empty if it is none. */
  private Optional<String> source(String command) {
    if (words.source().isEmpty()) {
      return Optional.empty();
    }
    LineWords.Source source = words.source().get();
    Optional<String> switched = source.output().flatMap(o -> output(source, o, command));
    if (switched.isPresent()) {
      return switched;
    }
    LineWords.Value back = words.values().get(Role.SIGNAL_SOURCE);
    if (command.equals(back.question().ask())) {
      boolean tells = source.output().map(o -> o.ask().isEmpty()).orElse(false);
      return Optional.of(
          tells && !on
              ? ReplySample.of(source.output().get().replyOff())
              : number(back, channel(Role.SIGNAL_SOURCE), setMilliamps));
    }
    return value(source.set(), command).map(number -> set(source, source.scale().of(number)));
  }

  private Optional<String> output(
      LineWords.Source source, LineWords.Output output, String command) {
    if (output.ask().map(command::equals).orElse(false)) {
      return Optional.of(ReplySample.of(on ? output.replyOn().orElseThrow() : output.replyOff()));
    }
    if (!command.equals(output.on()) && !command.equals(output.off())) {
      return Optional.empty();
    }
    on = command.equals(output.on());
    drive();
    return Optional.of(done(source.setReply()));
  }

  private String set(LineWords.Source source, double milliamps) {
    Specimen specimen = specimens.get(Role.SIGNAL_SOURCE);
    if (!specimen.reaches(milliamps)) {
      return refusal();
    }
    setMilliamps = specimen.setting(milliamps);
    drive();
    return done(source.setReply());
  }

  private void drive() {
    unit.command(on ? specimens.get(Role.SIGNAL_SOURCE).made(setMilliamps) : 0.0);
  }

  private Optional<String> power(String command) {
    if (words.power().isEmpty()) {
      return Optional.empty();
    }
    LineWords.Power power = words.power().get();
    if (command.equals(power.ask())) {
      Pattern reply = around.relay().on() ? power.replyOn() : power.replyOff();
      return Optional.of(ReplySample.of(reply));
    }
    if (!command.equals(power.on()) && !command.equals(power.off())) {
      return Optional.empty();
    }
    around.relay().set(command.equals(power.on()));
    return Optional.of(done(power.setReply()));
  }

  private Optional<String> switches(String command) {
    if (words.switches().map(s -> !s.question().ask().equals(command)).orElse(true)) {
      return Optional.empty();
    }
    LineWords.Switches switches = words.switches().get();
    Map<String, String> groups = new HashMap<>();
    for (Map.Entry<LimitSwitch, String> each : switches.groups().entrySet()) {
      boolean is = SimulatedSwitches.made(unit, each.getKey());
      groups.put(each.getValue(), is ? switches.made() : switches.notMade());
    }
    return Optional.of(ReplySample.of(switches.question().reply(), List.of(groups)));
  }

  private Optional<String> values(String command) {
    for (Map.Entry<Role, LineWords.Value> each : words.values().entrySet()) {
      if (command.equals(each.getValue().question().ask())) {
        Channel channel = channel(each.getKey());
        double value = shown.get(each.getKey()).getAsDouble();
        return Optional.of(number(each.getValue(), channel, value));
      }
    }
    return Optional.empty();
  }

  private double truth(Role role) {
    return switch (role) {
      case LOOP_METER -> unit.loopMilliamps();
      case SUPPLY_METER -> unit.supplyVolts();
      case ANGLE_REFERENCE -> unit.stemDegrees();
      case POSITION_TRANSMITTER -> position(specimens.get(role));
      case SIGNAL_SOURCE, SWITCHES, MOTOR_POWER ->
          throw new IllegalArgumentException("the " + role.key() + " measures nothing");
    };
  }

  private double position(Specimen specimen) {
    double milliamps = specimen.atFeedbackTerminals(unit);
    return specimen.unit().equals("mA")
        ? milliamps
        : around.feedback().positionAt(Current.ofMilliamps(milliamps)).percent();
  }

  private Channel channel(Role role) {
    return spec.channels().get(role);
  }

  private static String number(LineWords.Value value, Channel channel, double shown) {
    double number = value.scale().back(shown);
    double step = Math.abs(channel.resolution() / value.scale().factor());
    int least = step > 0 ? (int) Math.ceil(-Math.log10(step) - 1e-9) : MOST_DECIMALS;
    int decimals = Math.max(0, Math.min(least, MOST_DECIMALS));
    List<Map<String, String>> choices = new ArrayList<>();
    for (String format : List.of("%." + decimals + "f", "%+." + decimals + "f", "%.7E", "%+.7E")) {
      choices.add(Map.of("value", String.format(Locale.ROOT, format, number)));
    }
    return ReplySample.of(value.question().reply(), choices);
  }

  /** The number in a command that was made by the template; empty if it was not. */
  private static Optional<Double> value(Template template, String command) {
    boolean fits =
        command.length() > template.before().length() + template.after().length()
            && command.startsWith(template.before())
            && command.endsWith(template.after());
    if (!fits) {
      return Optional.empty();
    }
    String number =
        command
            .substring(template.before().length(), command.length() - template.after().length())
            .strip();
    return number.matches("[+-]?\\d+(\\.\\d*)?([eE][+-]?\\d+)?")
        ? Optional.of(Double.parseDouble(number))
        : Optional.empty();
  }
}

package org.benchstroke.io.line;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.line.LineWords.Scale;

/** Reads the words of an ask-and-answer instrument. Stateless. */
final class LineWordsReader {
  private static final List<String> ASKED = List.of("ask", "reply", "scale", "offset");
  private static final List<String> CURRENT = List.of("unit", "zero_mA", "full_mA");
  private static final List<String> SOURCED =
      List.of("set", "set_reply", "on", "off", "ask_state", "reply_on", "reply_off");

  private static final String VALUE = "value";
  private static final String PERCENT = "%";

  /** mA per number in a reply. */
  private static final Map<String, Double> CURRENTS = units("mA", "uA", "A", PERCENT);

  /** mA per number in a template. */
  private static final Map<String, Double> PLACES = units("mA", "uA", "A", "pct");

  private LineWordsReader() {}

  private static Map<String, Double> units(String milli, String micro, String amps, String share) {
    Map<String, Double> units = new LinkedHashMap<>();
    units.put(milli, 1.0);
    units.put(micro, 1e-3);
    units.put(amps, 1e3);
    units.put(share, Double.NaN);
    return units;
  }

  /** The keys of the role's words, which stand in the same table as its channel's. */
  static List<String> keys(Role role) {
    List<String> keys = new ArrayList<>(ASKED);
    if (role == Role.SIGNAL_SOURCE || role == Role.LOOP_METER) {
      keys.addAll(CURRENT);
    }
    if (role == Role.SIGNAL_SOURCE) {
      keys.addAll(SOURCED);
    }
    return keys;
  }

  static LineWords read(TomlSection section, List<Role> roles, Map<Role, Channel> channels) {
    Map<Role, LineWords.Value> values = new EnumMap<>(Role.class);
    Optional<LineWords.Source> source = Optional.empty();
    Optional<LineWords.Switches> switches = Optional.empty();
    Optional<LineWords.Power> power = Optional.empty();
    for (Role role : roles) {
      TomlSection table = section.section(role.table());
      switch (role) {
        case SWITCHES -> switches = Optional.of(switches(table));
        case MOTOR_POWER -> power = Optional.of(power(table));
        case SIGNAL_SOURCE -> {
          source = Optional.of(source(table));
          values.put(role, value(table, true));
        }
        case LOOP_METER -> values.put(role, value(table, true));
        case POSITION_TRANSMITTER, ANGLE_REFERENCE, SUPPLY_METER ->
            values.put(role, value(table, false));
      }
    }
    return new LineWords(
        LineTalkReader.read(section.section("talk")),
        section.optionalSection("identity").map(LineWordsReader::identity),
        source,
        values,
        switches,
        power);
  }

  private static LineWords.Question identity(TomlSection table) {
    LineWords.Question question = question(table);
    List<String> groups = Patterns.groups(question.reply());
    if (groups.stream().noneMatch(LineWords.IDENTITY_GROUPS::contains) && table.has("reply")) {
      table.mistake(
          "reply",
          "names none of the groups "
              + String.join(", ", LineWords.IDENTITY_GROUPS)
              + "; write one such as (?<serial>[^,]+)");
    }
    table.noOtherKeys();
    return question;
  }

  private static LineWords.Question question(TomlSection table) {
    return new LineWords.Question(
        Patterns.command(table, "ask"), Patterns.required(table, "reply"));
  }

  private static LineWords.Value value(TomlSection table, boolean current) {
    LineWords.Question question = question(table);
    boolean named = Patterns.groups(question.reply()).contains(VALUE);
    if (!named && table.optionalRaw("reply").isPresent()) {
      table.mistake(
          "reply", "names no group \"value\"; write (?<value>[-+0-9.]+) where the number stands");
    }
    double scale = table.optionalNumber("scale", -1e9, 1e9, "per count").orElse(1.0);
    double offset = table.optionalNumber("offset", -1e9, 1e9, "").orElse(0.0);
    if (scale == 0.0) {
      table.mistake("scale", "is 0, so every reading would be the same; write what one count is");
    }
    Scale unit = current ? unit(table, table.choice("unit", keyed(CURRENTS))) : Scale.ONE;
    return new LineWords.Value(
        question, new Scale(scale * unit.factor(), offset * unit.factor() + unit.shift()));
  }

  private static Map<String, String> keyed(Map<String, Double> units) {
    Map<String, String> words = new LinkedHashMap<>();
    units.keySet().forEach(word -> words.put(word, word));
    return words;
  }

  /** What a number in this unit is in mA; a share is one of zero_mA to full_mA. */
  private static Scale unit(TomlSection table, String word) {
    double factor = (word.equals("pct") ? PLACES : CURRENTS).get(word);
    if (!Double.isNaN(factor)) {
      return new Scale(factor, 0.0);
    }
    OptionalDouble zero = table.optionalNumber("zero_mA", 0, 100, "mA");
    OptionalDouble full = table.optionalNumber("full_mA", 0, 100, "mA");
    if (zero.isEmpty() || full.isEmpty() || zero.getAsDouble() == full.getAsDouble()) {
      table.mistake(
          word.equals(PERCENT) ? "unit" : "set",
          "for a value in % write what 0 and 100 % are: zero_mA and full_mA, not equal");
      return Scale.ONE;
    }
    return new Scale((full.getAsDouble() - zero.getAsDouble()) / 100.0, zero.getAsDouble());
  }

  private static LineWords.Source source(TomlSection table) {
    String text = table.text("set");
    Template template = new Template("", "mA", "%.6f", "");
    Scale scale = Scale.ONE;
    try {
      template = text.isEmpty() ? template : Template.parse(text);
      Patterns.requirePrintable(table, "set", text);
      if (PLACES.containsKey(template.unit())) {
        scale = unit(table, template.unit());
        requireFine(table, template, scale);
      } else {
        table.mistake(
            "set",
            "the unit \""
                + template.unit()
                + "\" is not known; known: "
                + String.join(", ", PLACES.keySet()));
      }
    } catch (Template.Fault e) {
      table.mistake("set", e.getMessage());
    }
    return new LineWords.Source(
        template, scale, Patterns.optional(table, "set_reply"), output(table));
  }

  /** A format that rounds more coarsely than the instrument would set something else than asked. */
  private static void requireFine(TomlSection table, Template template, Scale scale) {
    OptionalDouble resolution = table.optionalNumber("resolution_mA", 0, 100, "mA");
    double step = Math.abs(template.step() * scale.factor());
    if (resolution.isPresent() && step > resolution.getAsDouble() * (1.0 + 1e-9)) {
      table.mistake(
          "set",
          "the format "
              + template.format()
              + " has steps of "
              + Numbers.plain(step)
              + " mA, coarser than resolution_mA = "
              + Numbers.plain(resolution.getAsDouble())
              + "; write more decimals");
    }
  }

  private static Optional<LineWords.Output> output(TomlSection table) {
    List<String> together = List.of("on", "off", "reply_off");
    List<String> missing = together.stream().filter(key -> !table.has(key)).toList();
    boolean state = table.has("ask_state");
    if (state != table.has("reply_on")) {
      table.mistake(
          state ? "ask_state" : "reply_on",
          "ask_state and reply_on belong together; write both or none");
    }
    if (missing.size() == together.size() && !state) {
      return Optional.empty();
    }
    if (!missing.isEmpty()) {
      table.mistake(
          together.stream().filter(table::has).findFirst().orElse("ask_state"),
          "on, off and reply_off belong together; missing: " + String.join(", ", missing));
      return Optional.empty();
    }
    return Optional.of(
        new LineWords.Output(
            Patterns.command(table, "on"),
            Patterns.command(table, "off"),
            state ? Optional.of(Patterns.command(table, "ask_state")) : Optional.empty(),
            Patterns.optional(table, "reply_on"),
            Patterns.required(table, "reply_off")));
  }

  private static LineWords.Switches switches(TomlSection table) {
    LineWords.Question question = question(table);
    Map<String, LimitSwitch> known = new LinkedHashMap<>();
    for (LimitSwitch each : LimitSwitch.values()) {
      known.put(groupOf(each), each);
    }
    Map<LimitSwitch, String> groups = new HashMap<>();
    for (String group : Patterns.groups(question.reply())) {
      if (known.containsKey(group)) {
        groups.put(known.get(group), group);
      } else {
        table.mistake(
            "reply",
            "the group \""
                + group
                + "\" is not a switch; known: "
                + String.join(", ", known.keySet()));
      }
    }
    if (groups.isEmpty() && table.optionalRaw("reply").isPresent()) {
      table.mistake("reply", "names no switch; write one group for each, such as (?<closed>[01])");
    }
    String made = table.text("made");
    String notMade = table.text("not_made");
    if (made.equals(notMade) && !made.isEmpty()) {
      table.mistake(
          "not_made", "is the same as made; write what the reply says when it is not made");
    }
    table.noOtherKeys();
    return new LineWords.Switches(question, groups, made, notMade);
  }

  /** The name of a switch's group: a regular expression allows no hyphen there. */
  private static String groupOf(LimitSwitch which) {
    return which.key().replace("-auxiliary", "Auxiliary");
  }

  private static LineWords.Power power(TomlSection table) {
    String on = Patterns.command(table, "on");
    String off = Patterns.command(table, "off");
    String ask = Patterns.command(table, "ask");
    Pattern replyOn = Patterns.required(table, "reply_on");
    Pattern replyOff = Patterns.required(table, "reply_off");
    if (on.equals(off) && !on.isEmpty()) {
      table.mistake("off", "is the same command as on");
    }
    if (replyOn.pattern().equals(replyOff.pattern()) && table.has("reply_off")) {
      table.mistake("reply_off", "is the same pattern as reply_on");
    }
    Optional<Pattern> setReply = Patterns.optional(table, "set_reply");
    table.noOtherKeys();
    return new LineWords.Power(on, off, setReply, ask, replyOn, replyOff);
  }
}

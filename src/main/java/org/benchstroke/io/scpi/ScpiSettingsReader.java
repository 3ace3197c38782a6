package org.benchstroke.io.scpi;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.TextManner;
import org.benchstroke.io.instrument.TextMannerReader;

/** Reads how an instrument is asked over SCPI. Stateless. */
final class ScpiSettingsReader {
  /** Whether a supply meter is asked for an alternating voltage. */
  static final String SUPPLY = "supply";

  private static final Set<Role> PLAYABLE =
      Set.of(Role.SIGNAL_SOURCE, Role.LOOP_METER, Role.SUPPLY_METER);

  private ScpiSettingsReader() {}

  static ScpiSettings read(TomlSection section, List<Role> roles, Map<Role, Channel> channels) {
    for (Role role : roles) {
      if (!PLAYABLE.contains(role)) {
        section.mistake(
            "roles",
            "\"" + role.key() + "\" can't be played over scpi; use a modbus or a line instrument");
      }
    }
    ScpiHabits habits =
        section.optionalSection("talk").map(ScpiSettingsReader::habits).orElse(ScpiHabits.USUAL);
    return new ScpiSettings(habits, alternating(section, channels));
  }

  /** What is left out is as usual. */
  private static ScpiHabits habits(TomlSection table) {
    ScpiHabits usual = ScpiHabits.USUAL;
    TextManner manner = TextMannerReader.read(table);
    ScpiHabits habits =
        new ScpiHabits(
            manner,
            table
                .optionalChoice(
                    "settle", Words.of(ScpiHabits.Settling.values(), ScpiHabits.Settling::key))
                .orElse(usual.settling()),
            table
                .optionalChoice(
                    "check", Words.of(ScpiHabits.Checking.values(), ScpiHabits.Checking::key))
                .orElse(usual.checking()));
    table.noOtherKeys();
    return habits;
  }

  private static boolean alternating(TomlSection section, Map<Role, Channel> channels) {
    String table = Role.SUPPLY_METER.table();
    return channels.containsKey(Role.SUPPLY_METER)
        && section.has(table)
        && section.section(table).choice(SUPPLY, Map.of("ac", true, "dc", false));
  }
}

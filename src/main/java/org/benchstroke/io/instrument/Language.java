package org.benchstroke.io.instrument;

import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.benchstroke.core.toml.TomlSection;

/**
 * A language that instruments speak, as bench files know it. Each driver has its own. Immutable.
 *
 * @param key its word in bench files
 * @param serial whether it can be spoken on a serial line
 * @param keys its keys of a role, which stand in the table of the role's channel
 * @param reader reads what the driver must know
 */
public record Language(
    String key, boolean serial, Function<Role, List<String>> keys, Reader reader) {

  /** Reads an instrument's settings. */
  public interface Reader {
    /**
     * Reads them; what is wrong becomes mistakes of the section.
     *
     * @param section the instrument's
     * @param roles what it plays
     * @param channels those of the roles that measure or source, as they were read
     */
    Talk read(TomlSection section, List<Role> roles, Map<Role, Channel> channels);
  }
}

package org.benchstroke.io.scpi;

import java.util.List;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.Talk;

/**
 * How an instrument is asked over SCPI. Immutable.
 *
 * @param habits in what it differs from others that speak it
 * @param alternatingSupply whether the voltage that it measures as a supply meter alternates
 */
public record ScpiSettings(ScpiHabits habits, boolean alternatingSupply) implements Talk {
  public static final Language LANGUAGE =
      new Language("scpi", true, ScpiSettings::keys, ScpiSettingsReader::read);

  /** As most do. */
  public static final ScpiSettings USUAL = new ScpiSettings(ScpiHabits.USUAL, false);

  @Override
  public Language language() {
    return LANGUAGE;
  }

  private static List<String> keys(Role role) {
    return role == Role.SUPPLY_METER ? List.of(ScpiSettingsReader.SUPPLY) : List.of();
  }
}

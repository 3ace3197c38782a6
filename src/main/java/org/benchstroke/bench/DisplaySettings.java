package org.benchstroke.bench;

import java.util.List;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Talk;

/**
 * An instrument without a port: a person sets or reads it and types what it shows. Immutable.
 *
 * @param readingScatter the standard deviation of one reading by eye, in the channel's unit
 * @param lookedAt the switches that the person looks at
 */
public record DisplaySettings(double readingScatter, List<LimitSwitch> lookedAt) implements Talk {
  static final Language LANGUAGE =
      new Language("typed in", false, DisplayReader::keys, DisplayReader::read);

  public DisplaySettings {
    lookedAt = List.copyOf(lookedAt);
  }

  @Override
  public Language language() {
    return LANGUAGE;
  }
}

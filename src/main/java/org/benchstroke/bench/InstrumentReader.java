package org.benchstroke.bench;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.core.toml.Words;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.Talk;
import org.benchstroke.io.transport.Endpoint;

/** Reads one instrument of a bench file. Stateless. */
final class InstrumentReader {
  private InstrumentReader() {}

  static InstrumentSpec read(TomlSection section, BenchLines lines) {
    String name = section.text("name");
    if (section.has(BenchText.USE)) {
      // Whoever reads a bench file puts together first what it uses.
      section.mistake(BenchText.USE, "leads to another file, and this text stands by itself");
    }
    List<Role> roles = section.choices("roles", Words.of(Role.values(), Role::key));
    Language speaks = section.choice("speaks", Languages.byWord());
    boolean typed = speaks.equals(DisplaySettings.LANGUAGE);
    Endpoint endpoint = typed ? new Endpoint.Display() : lines.endpointOf(section, speaks);
    double reply = typed ? 0.0 : section.number("reply_timeout_ms", 10, 60_000, "ms") / 1000.0;
    String maker = section.optionalText("maker").orElse("");
    String model = section.optionalText("model").orElse("");
    String serial = section.text("serial");
    InstrumentSpec.Calibration calibration = CalibrationReader.read(section);
    Map<Role, Channel> channels = ChannelReader.channels(section, roles, speaks.keys());
    Talk talk = speaks.reader().read(section, roles, channels);
    OptionalDouble volts = ChannelReader.compliance(section, roles);
    Optional<Mounting> mounting = MountingReader.read(section, roles);
    CalibrationReader.check(section, calibration, channels);
    section.noOtherKeys();
    return new InstrumentSpec(
        name,
        roles.isEmpty() ? Set.of(Role.SIGNAL_SOURCE) : Set.copyOf(roles),
        talk,
        endpoint,
        reply,
        maker,
        model,
        serial,
        calibration,
        channels,
        volts,
        mounting);
  }
}

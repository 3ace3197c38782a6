package org.benchstroke.simulator;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.instrument.Language;
import org.benchstroke.io.line.LineWords;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.transport.Endpoint;

/** Whether the instruments of a bench file can be simulated. Stateless. */
final class PlayableBench {
  private static final String REPLACED = "replaced.invalid";

  private PlayableBench() {}

  /** What is typed in has no port: a person reads it. */
  static List<InstrumentSpec> withPort(BenchFile file) {
    return file.instruments().stream().filter(spec -> !spec.typedIn()).toList();
  }

  /**
   * One language at an address, and serial numbers that fit their registers.
   *
   * @throws FileMistakes with every instrument that can't be played
   */
  static void requirePlayable(String benchName, BenchFile file) throws FileMistakes {
    List<Mistake> mistakes = new ArrayList<>();
    Map<Endpoint, Language> spoken = new HashMap<>();
    for (InstrumentSpec spec : withPort(file)) {
      boolean taken = spoken.containsKey(spec.endpoint());
      if (taken && spec.speaks().equals(LineWords.LANGUAGE)) {
        mistakes.add(
            mistake(
                benchName, spec, "address", "only one line instrument at an address is simulated"));
      }
      Language first = spoken.computeIfAbsent(spec.endpoint(), at -> spec.speaks());
      if (!first.equals(spec.speaks())) {
        mistakes.add(
            mistake(benchName, spec, "address", "two languages at one address; give it another"));
      }
      boolean numbered =
          spec.talk(ModbusSettings.class).flatMap(ModbusSettings::serialNumber).isPresent();
      if (numbered && !spec.serial().matches("[0-9]{1,15}")) {
        mistakes.add(
            mistake(
                benchName,
                spec,
                "serial",
                "found \"" + spec.serial() + "\", but a register holds digits alone"));
      }
    }
    requireNone(mistakes);
  }

  static void requireNone(List<Mistake> mistakes) throws FileMistakes {
    if (!mistakes.isEmpty()) {
      throw new FileMistakes(mistakes);
    }
  }

  /** An address that stayed would lead to an instrument, not to its simulation. */
  static void requireReplaceable(String benchName, String text, BenchFile file)
      throws FileMistakes {
    Map<String, String> others = new HashMap<>();
    for (InstrumentSpec spec : withPort(file)) {
      String other = new Endpoint.Tcp(REPLACED, others.size() + 1).text();
      others.putIfAbsent(spec.endpoint().text(), other);
    }
    String elsewhere =
        BenchRewrite.of(text, others, "played", OptionalDouble.empty(), 1.0, Optional.empty());
    TomlDocument rewritten = TomlDocument.parse(benchName, elsewhere);
    List<Mistake> mistakes = new ArrayList<>();
    for (InstrumentSpec spec : withPort(BenchFileReader.read(rewritten))) {
      if (!others.containsValue(spec.endpoint().text())) {
        mistakes.add(
            mistake(benchName, spec, "address", "write address = \"…\" in a line of its own"));
      }
    }
    requireNone(mistakes);
  }

  private static Mistake mistake(
      String benchName, InstrumentSpec spec, String key, String message) {
    return new Mistake(benchName, 0, "instrument \"" + spec.name() + "\": " + key, message);
  }
}

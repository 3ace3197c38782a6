package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.model.LossParameters;
import org.benchstroke.core.model.SensorParameters;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.Word;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class SimulationReaderTest {
  private static final Path TYPE =
      Path.of("demo-data/unit-types/quarter-turn-15s.toml").toAbsolutePath();

  @TempDir Path folder;

  static Stream<Path> simulations() throws IOException {
    try (Stream<Path> files = Files.list(Path.of("simulators"))) {
      List<Path> found = files.filter(f -> f.toString().endsWith(".toml")).sorted().toList();
      assertThat(found).hasSizeGreaterThanOrEqualTo(8);
      return found.stream();
    }
  }

  @ParameterizedTest
  @MethodSource("simulations")
  void everySimulationReadsAndItsBenchFileFits(Path file) throws FileMistakes, IOException {
    Simulation simulation = SimulationReader.read(file);
    String bench = SimulatedBench.of(simulation).benchToml(Map.of(), 20.0);
    BenchFile read = BenchFileReader.read(TomlDocument.parse("bench", bench));
    assertThat(read.simulation().orElseThrow().shows()).isEqualTo(simulation.shows());
    assertThat(read.simulation().orElseThrow().timeScale()).isEqualTo(20.0);
    assertThat(read.playing(Role.ANGLE_REFERENCE).isPresent())
        .isEqualTo(simulation.angleReference());
    assertThat(read.playing(Role.SIGNAL_SOURCE).orElseThrow().complianceVolts())
        .hasValue(simulation.parameters().input().complianceVolts());
    assertThat(Files.readString(file)).contains("\n# Invented.");
    assertThat(Files.readString(Path.of("simulators/README.md")))
        .contains("**" + file.getFileName() + "**");
  }

  @Test
  void unitFollowsItsTypeWhereTheFileIsSilent() throws FileMistakes, IOException {
    Simulation simulation = read("[control]\naction = \"reverse\"\n[loss]\nopen_mA = 1.0\n");
    assertThat(simulation.parameters().motor().strokeSeconds()).isEqualTo(15.0);
    assertThat(simulation.parameters().control().signal()).isEqualTo(SignalRange.of(20.0, 4.0));
    assertThat(simulation.parameters().loss().action()).isEqualTo(LossParameters.Action.CLOSE);
    assertThat(simulation.parameters().loss().lowMilliamps()).isEqualTo(3.7);
    assertThat(simulation.parameters().cams().openDegrees()).isEqualTo(90.4);
  }

  @Test
  void everyMistakeIsNamedWithItsLine() throws IOException {
    FileMistakes mistakes =
        mistakes(
            """
            [motor]
            brake_s = 20
            [mechanics]
            copling_play_pct = 1.0
            [mechanics2]
            [sensor]
            dead_spot_from_pct = 50
            dead_spot_to_pct = 40
            [loss]
            action = "panic"
            """);
    assertThat(mistakes.getMessage().lines())
        .containsExactly(
            file() + ":9: motor.brake_s: found 20, allowed is a number, 0.005 to 2 s",
            file()
                + ":11: mechanics.copling_play_pct: is not known here; did you mean"
                + " \"coupling_play_pct\"; known: closed_stop_deg, coupling_play_pct,"
                + " friction_from_pct, friction_to_pct, gear_play_pct, linkage_bend_pct,"
                + " linkage_shape, open_stop_deg, quadrant_deg, sensor_play_pct, slide_pct,"
                + " slip_overshoot_ratio, start_pct, stick_pct",
            file()
                + ":12: mechanics2: is not known here; did you mean \"mechanics\"; known:"
                + " angle_reference, calibration, control, expected, fault, format, heat, input,"
                + " instrument_error, kind, load, loss, mechanics, motor, name, pneumatic,"
                + " sample_period_ms, seed, sensor, shows, supply, switches, transmitter,"
                + " unit_type",
            file() + ":13: sensor: dead spot's end, %, must be 50 to 110, not 40",
            file()
                + ":17: loss.action: found \"panic\", allowed is \"close\" or \"open\" or"
                + " \"stay\"");
  }

  @Test
  void aUnitThatCalibratesItselfIsNotToldItsSpan() throws IOException {
    FileMistakes mistakes = mistakes("[calibration]\nby = \"unit\"\nzero_deg = 1.0\n");
    assertThat(mistakes.getMessage())
        .isEqualTo(
            file()
                + ":9: calibration.by: a unit that calibrates itself finds zero_deg and full_deg;"
                + " leave them out");
  }

  @Test
  void deadSpotsAreAsManyAsTheFileNames() throws FileMistakes, IOException {
    String more = "[[sensor.dead_spot]]\nfrom_pct = 70\nto_pct = 71\n";
    assertThat(
            read("[sensor]\ndead_spot_from_pct = 20\ndead_spot_to_pct = 21\n" + more)
                .parameters()
                .sensor()
                .deadSpots())
        .containsExactly(
            new SensorParameters.DeadSpot(20, 21), new SensorParameters.DeadSpot(70, 71));
    FileMistakes mistakes = mistakes("[[sensor.dead_spot]]\nfrom_pct = 70\nto_pct = 69\n");
    assertThat(mistakes.getMessage())
        .isEqualTo(file() + ":10: sensor.dead_spot[1].to_pct: must not be below from_pct");
  }

  @Test
  void aPneumaticUnitHasNoMotorAndItsSpringDecides() throws IOException {
    FileMistakes mistakes =
        mistakes(
            """
            [control]
            start_pct = 1.0
            [loss]
            action = "open"
            [pneumatic]
            spring_to_bar = 5.45
            [pneumatic.air]
            supply_bar = 11
            """);
    assertThat(mistakes.getMessage().lines())
        .containsExactly(
            file()
                + ":8: control: a pneumatic unit has no motor; see [pneumatic.air],"
                + " [pneumatic.positioner]",
            file() + ":12: pneumatic: spring's end, bar, must be 2.1 to 5.4, not 5.45",
            file() + ":15: pneumatic.air.supply_bar: found 11, allowed is a number, 0 to 10 bar");
  }

  @Test
  void aLossThatTheSpringCannotDoIsAMistake() throws IOException {
    FileMistakes mistakes =
        mistakes("[loss]\nopen_loop_action = \"open\"\n[pneumatic]\nspring = \"closes\"\n");
    assertThat(mistakes.getMessage())
        .isEqualTo(
            file()
                + ":9: loss.open_loop_action: without its signal the spring drives it; set spring");
  }

  @Test
  void whatToExpectIsReadWhereItIsStated() throws FileMistakes, IOException {
    assertThat(read("").expected()).isEmpty();
    for (Word word : Word.values()) {
      String text =
          "[expected]\nverdict = \"%s\"\nshows = \"zero\"\ncause = \"zero_shift\"\n"
              .formatted(word.text());
      assertThat(read(text).expected())
          .contains(new Conclusion(word.text(), "zero", "zero_shift"))
          .get()
          .matches(Conclusion::hasCause);
    }
  }

  @Test
  void whatNobodyCanExpectIsAMistake() throws IOException {
    assertThat(mistakes("[expected]\nverdict = \"good\"\ncause = \"Zero shift\"\n").getMessage())
        .contains(":9: expected.verdict: found \"good\"")
        .contains("no result")
        .contains("expected.shows: is missing")
        .contains(":10: expected.cause: is written in lower case with underscores");
  }

  @Test
  void anInstrumentOutOfCalibrationIsReadAndSoughtOnTheBench() throws FileMistakes, IOException {
    Simulation off =
        read(
            """
            [[instrument_error]]
            on = "loop meter"
            role = "loop meter"
            gain_pct = 0.5
            [[instrument_error]]
            on = "angle reference"
            role = "angle reference"
            offset = -2.0
            """);
    assertThat(off.instrumentErrors())
        .containsExactly(
            new InstrumentError(
                "loop meter", Role.LOOP_METER, Optional.empty(), 1.0, 0.5, 0.0, Manner.USUAL),
            new InstrumentError(
                "angle reference",
                Role.ANGLE_REFERENCE,
                Optional.empty(),
                1.0,
                0.0,
                -2.0,
                Manner.USUAL));
    assertThat(off.withSeed(9).instrumentErrors()).isEqualTo(off.instrumentErrors());
    FileMistakes none = catchThrowableOfType(FileMistakes.class, () -> SimulatedBench.builtIn(off));
    assertThat(none.getMessage())
        .contains(
            "built-in bench: instrument_error: the simulation has one on \"angle reference\" as"
                + " angle reference, but the bench has none");
  }

  @Test
  void switchesHaveNoValueThatCouldBeOff() throws IOException {
    String text = "[[instrument_error]]\non = \"position input\"\nrole = \"switches\"\n";
    assertThat(mistakes(text).getMessage()).contains(":10: instrument_error[1].role: found");
  }

  @Test
  void missingUnitTypeIsNamed() throws IOException {
    Files.writeString(file(), head("no-such.toml"));
    FileMistakes mistakes =
        catchThrowableOfType(FileMistakes.class, () -> SimulationReader.read(file()));
    assertThat(mistakes.getMessage())
        .isEqualTo(
            file()
                + ":5: unit_type: "
                + folder.resolve("no-such.toml")
                + ": there is no such file; check the name and the folder");
  }

  private Path file() {
    return folder.resolve("unit.toml");
  }

  private static String head(String unitType) {
    return """
    kind = "simulation"
    format = 1
    name = "n"
    shows = "s"
    unit_type = "%s"
    seed = 1
    angle_reference = "absent"
    """
        .formatted(unitType);
  }

  private Simulation read(String sections) throws FileMistakes, IOException {
    Files.writeString(file(), head(TYPE.toString()) + sections);
    return SimulationReader.read(file());
  }

  private FileMistakes mistakes(String sections) throws IOException {
    Files.writeString(file(), head(TYPE.toString()) + sections);
    return catchThrowableOfType(FileMistakes.class, () -> SimulationReader.read(file()));
  }
}

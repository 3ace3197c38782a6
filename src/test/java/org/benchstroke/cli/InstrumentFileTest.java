package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.BenchText;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.RecordReader;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Instruments described in files of their own, which benches share. */
class InstrumentFileTest {
  private static final String METER =
      """
      kind = "instrument"
      format = 1
      roles = ["loop meter"]
      speaks = "scpi"
      reply_timeout_ms = 500
      maker = "Example Instruments"
      model = "LM6"

      [loop_meter]
      accuracy = "±(0.01 % of reading + 1 µA)"
      resolution_mA = 0.0001
      min_mA = 0.0
      max_mA = 30.0
      """;

  private static final String BRIEF =
      """
      kind = "procedure"
      format = 1
      name = "Brief"
      version = "1"
      [[test]]
      test = "exercise"
      strokes = 1
      """;

  private static final String OWN =
      """
      [[instrument]]
      name = "loop meter"
      use = "instruments/lm6.toml"
      address = "tcp://192.0.2.11:5025"
      serial = "2002"
      certificate = "C-2026-0412"
      calibrated = 2026-04-11
      due = 2027-04-11
      """;

  @TempDir Path folder;

  private Path described;
  private Path bench;

  /** The wall bench of the demo, its loop meter described elsewhere. */
  @BeforeEach
  void write() throws Exception {
    Files.createDirectories(folder.resolve("instruments"));
    described = Files.writeString(folder.resolve("instruments/lm6.toml"), METER);
    String wall = Files.readString(Path.of("demo-data/benches/wall-bench.toml"));
    String changed =
        wall.replaceFirst(
            "(?s)\\[\\[instrument]]\nname = \"loop meter\".*?(?=\\[\\[instrument]]\nname = \"pos)",
            OWN + "\n");
    assertThat(changed).contains("use = ").doesNotContain("[instrument.loop_meter]");
    bench = Files.writeString(folder.resolve("bench.toml"), changed);
  }

  private String mistakes() {
    FileMistakes found =
        catchThrowableOfType(FileMistakes.class, () -> BenchFileReader.read(bench));
    return found == null ? "" : found.getMessage().replace(folder + "/", "");
  }

  /** It is the same bench as if all stood in one file. */
  @Test
  void theBenchIsTheSameAsInOneFile() throws Exception {
    BenchFile whole = BenchFileReader.read(Path.of("demo-data/benches/wall-bench.toml"));
    assertThat(BenchFileReader.read(bench)).isEqualTo(whole);
    String text = BenchText.of(bench).text();
    assertThat(text)
        .contains("# use = \"instruments/lm6.toml\"", "[instrument.loop_meter]")
        .doesNotContain("kind = \"instrument\"");
  }

  /** Certified points belong to the bench's own, below what is described. */
  @Test
  void aBenchAddsItsOwnTables() throws Exception {
    StringBuilder certified = new StringBuilder("calibrated_at_c = 23.0\n");
    for (String at : new String[] {"4.0", "12.0", "20.0"}) {
      certified.append("[[instrument.loop_meter.certified]]\nat_mA = ").append(at).append('\n');
      certified.append("correction_mA = 0.001\nU_mA = 0.002\nk = 2.0\n");
    }
    Files.writeString(described, METER + "drift_per_year = \"2 µA\"\n");
    Files.writeString(
        bench,
        Files.readString(bench)
            .replaceFirst("(?s)(use = .*?due = 2027-04-11\n)", "$1" + certified));
    assertThat(mistakes()).isEmpty();
    BenchFile read = BenchFileReader.read(bench);
    assertThat(read.playing(Role.LOOP_METER).orElseThrow().certified(Role.LOOP_METER)).isTrue();
  }

  @Test
  void mistakesAreToldAtTheLinesOfTheirOwnFiles() throws Exception {
    Files.writeString(described, METER.replace("±(0.01 % of reading + 1 µA)", "good"));
    assertThat(mistakes()).startsWith("instruments/lm6.toml:10: instrument[2].loop_meter.accuracy");
    Files.writeString(described, METER.replace("model =", "modle ="));
    assertThat(mistakes()).contains("instruments/lm6.toml:7: instrument[2].modle: is not known");
    Files.writeString(described, METER + "name = \"x\"\n[loop_meter\n");
    assertThat(mistakes()).startsWith("instruments/lm6.toml:15: not TOML");
    Files.writeString(described, METER.replace("kind = \"instrument\"", "kind = \"bench\""));
    assertThat(mistakes()).contains("an instrument file was expected here");
    Files.delete(described);
    assertThat(mistakes()).contains("lm6.toml: there is no such file");
    Files.writeString(described, METER + "\n");
    Files.writeString(
        bench, Files.readString(bench).replace("address = \"tcp://192.0.2.11", "serial"));
    assertThat(mistakes()).contains("bench.toml");
  }

  @Test
  void aKeyStandsInOneOfThem() throws Exception {
    Files.writeString(described, METER.replace("maker =", "serial = \"1\"\nmaker ="));
    assertThat(mistakes())
        .contains("serial: stands here and in ")
        .contains("; let it stand in one of them");
  }

  /** The record holds the whole, so that it can be judged without any of the files. */
  @Test
  void aRecordNeedsNoneOfTheFiles() throws Exception {
    Path brief = Files.writeString(folder.resolve("brief.toml"), BRIEF);
    Command run =
        Command.run(
            "run",
            "--simulation",
            "simulators/healthy-b.toml",
            "--bench",
            bench,
            "--procedure",
            brief,
            "--records",
            folder.resolve("records"),
            "-s",
            "S-1",
            "--order",
            "1",
            "--operator",
            "Ann",
            "--unattended",
            "--archive",
            "none");
    assertThat(run.err()).isEmpty();
    Path record = ShortRun.recordIn(folder.resolve("records"));
    Files.delete(described);
    Files.delete(bench);
    assertThat(RecordReader.read(record).opened().files())
        .anyMatch(f -> f.kind().equals("bench") && f.text().contains("model = \"LM6\""));
    assertThat(Command.run("judge", record).code()).isEqualTo(run.code());
  }

  /** What a probe captured is what the description says and hears. */
  @Test
  void aTranscriptIsReplayed() throws Exception {
    LeapingClock clock = new LeapingClock();
    SimulatedBench unit =
        SimulatedBench.of(SimulationReader.read(Path.of("simulators/healthy-b.toml")));
    Path captured = folder.resolve("captured");
    try (SimulatorServer server = SimulatorServer.start(unit, clock.followed(), Map.of())) {
      Path served = folder.resolve("served.toml");
      Files.writeString(served, ShortRun.patient(server.benchToml()));
      Command.run(
          clock, "probe", "--bench", served, "--seconds", "0.05", "--json", "--capture", captured);
      String text = Files.readString(served);
      String address =
          text.replaceFirst(
              "(?s).*roles = \\[\"loop meter\"]\\s+speaks = \"scpi\"\\s+address = \"tcp://([^\"]+)\".*",
              "$1");
      Path of = captured.resolve("tcp-" + address.replace(':', '-') + ".txt");
      Files.copy(of, folder.resolve("instruments/lm6.txt"));
    }
    Files.writeString(described, METER.replace("roles", "transcript = \"lm6.txt\"\nroles"));
    Command check = Command.run("check", described);
    assertThat(check.out())
        .contains("ok, an instrument file", "  transcript: loop meter ", " reading");
    assertThat(check.code()).isZero();

    // Another question than the one that is written.
    Files.writeString(
        folder.resolve("instruments/lm6.txt"),
        Files.readString(folder.resolve("instruments/lm6.txt")).replace("CURR", "VOLT"));
    Command other = Command.run("check", described);
    assertThat(other.code()).isEqualTo(2);
    assertThat(other.out()).containsPattern("lm6\\.txt:\\d+: .*instead, the driver sent \"");
  }
}

package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.app.ExitCode;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The first commands that anybody gives, and a simulated run: in this process, without links. */
@Timeout(300)
class DemoCommandTest {
  @TempDir Path folder;

  private RunRecord demo(int code, Object... more) throws Exception {
    Path records = Files.createTempDirectory(folder, "records");
    Object[] demo = {"demo", "--time-scale", "100", "--records", records};
    Command done = Command.run(concat(demo, more));
    assertThat(done.code()).as(done.out() + done.err()).isEqualTo(code);
    assertThat(done.out())
        .contains("SIMULATED bench", "Plan, about ", "Safe signal: confirmed", "Report:");
    return RecordReader.read(ShortRun.recordIn(records));
  }

  /** Whatever else the machine has to do: no link, no wall, no gap, and every time the same. */
  @Test
  void aDemoPassesAndIsTheSameEachTime() throws Exception {
    RunRecord first = demo(ExitCode.PASSED);
    assertThat(first.opened().simulated()).isNotEmpty();
    assertThat(first.events(Event.Faulted.class)).isEmpty();
    assertThat(events(demo(ExitCode.PASSED))).isEqualTo(events(first));
  }

  @Test
  void aUnitWithAFaultFailsItsDemo() throws Exception {
    demo(ExitCode.NOT_PASSED, "simulators/span-error.toml");
    demo(ExitCode.NOT_COMPLETED, "simulators/loop-resistance-too-high.toml");
  }

  /** It is judged by its own type, which has a limit that this procedure does not measure. */
  @Test
  void aPneumaticUnitIsTestedAsOne() throws Exception {
    RunRecord record = demo(ExitCode.NOT_PASSED, "simulators/pneumatic-sound.toml");
    assertThat(record.opened().files().get(1).name()).contains("pneumatic");
  }

  @Test
  void aRunOfASimulationIsThatOfItsDemo() throws Exception {
    Path records = folder.resolve("records");
    Command run =
        Command.run(
            "run",
            "--simulation",
            "simulators/healthy-b.toml",
            "--unattended",
            "--procedure",
            "demo-data/procedures/short-acceptance.toml",
            "--serial",
            "DEMO-0001",
            "--operator",
            "demo",
            "--order",
            "demo",
            "--records",
            records);
    assertThat(run.code()).as(run.out() + run.err()).isZero();
    assertThat(run.out()).contains("simulated, not a real unit");
    RunRecord record = RecordReader.read(ShortRun.recordIn(records));
    assertThat(events(record)).isEqualTo(events(demo(ExitCode.PASSED)));
  }

  @Test
  void aSimulationTakesTheInstrumentsOfABenchFile() throws Exception {
    Path records = folder.resolve("records");
    String text = Files.readString(Path.of("demo-data/benches/wall-bench.toml"));
    Path bench =
        Files.writeString(
            folder.resolve("bench.toml"), text.replaceAll("due = .*", "due = 2099-12-31"));
    Object[] run = {
      "run",
      "--simulation",
      "simulators/healthy-b.toml",
      "--bench",
      bench,
      "--unattended",
      "--procedure",
      "demo-data/procedures/short-acceptance.toml",
      "--serial",
      "S-1",
      "--operator",
      "Ann",
      "--order",
      "none",
      "--records",
      records
    };
    Command done = Command.run(run);
    assertThat(done.code()).as(done.out() + done.err()).isZero();
    RunRecord record = RecordReader.read(ShortRun.recordIn(records));
    assertThat(record.opened().simulated()).isNotEmpty();
    assertThat(record.opened().files().get(0).text()).contains("[simulation]", "192.0.2.10");
  }

  @Test
  void whatDoesNotGoTogetherIsTold() {
    Object[] rest = {"--procedure", "p", "--serial", "s", "--operator", "o", "--order", "none"};
    assertThat(Command.run(concat(new Object[] {"run", "--bench", "b.toml"}, rest)).err())
        .contains("'--bench=FILE' and '--unit-type=FILE', or '--simulation=FILE'")
        .contains("Usage: benchstroke run");
    Object[] paced = {"run", "--bench", "b.toml", "--unit-type", "u.toml", "--time-scale", "2"};
    assertThat(Command.run(concat(paced, rest)).err())
        .isEqualTo("--time-scale: goes with --simulation; a bench has its own time\n");
    Object[] byHand = {
      "run",
      "--simulation",
      "simulators/healthy-b.toml",
      "--bench",
      "demo-data/benches/by-hand.toml",
      "--unattended"
    };
    Object[] whole = {
      "--procedure",
      "demo-data/procedures/short-acceptance.toml",
      "--serial",
      "s",
      "--operator",
      "o",
      "--order",
      "none"
    };
    Command typedIn = Command.run(concat(byHand, whole));
    assertThat(typedIn.code()).isEqualTo(ExitCode.WRONG_REQUEST);
    assertThat(typedIn.err()).contains("by-hand.toml: ", "typed in").hasLineCount(1);
  }

  private static Object[] concat(Object[] first, Object[] second) {
    List<Object> all = new ArrayList<>(List.of(first));
    all.addAll(List.of(second));
    return all.toArray();
  }

  /** What happened and when, by the bench's own time; the name of the unit's file may differ. */
  private static List<Entry> events(RunRecord record) {
    return record.entries().stream()
        .filter(entry -> !(entry.event() instanceof Event.Opened))
        .map(DemoCommandTest::withoutDate)
        .toList();
  }

  private static Entry withoutDate(Entry entry) {
    return new Entry(entry.number(), entry.nanos(), Instant.EPOCH, entry.step(), entry.event());
  }
}

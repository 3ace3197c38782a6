package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.benchstroke.record.RecordReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** An interrupted run is gone on with from the command line. */
@Timeout(120)
class ResumeOptionTest {
  @TempDir Path folder;

  private Command run(Object... more) {
    List<Object> all = new java.util.ArrayList<>();
    all.addAll(List.of("run", "--simulation", "simulators/healthy-b.toml", "--unattended"));
    all.addAll(List.of("--procedure", "demo-data/procedures/short-acceptance.toml"));
    all.addAll(List.of("--operator", "Ann", "--records", folder));
    all.addAll(List.of(more));
    return Command.run(all.toArray());
  }

  @Test
  void serialAndOrderAreThoseOfTheRecord() throws Exception {
    assertThat(run("--serial", "S-1", "--order", "4711").code()).isZero();
    Path killed = ShortRun.recordIn(folder);
    List<String> lines = Files.readAllLines(killed);
    Path moved = Files.createDirectory(folder.resolve("killed")).resolve("killed.jsonl");
    Files.write(moved, lines.subList(0, lines.size() * 8 / 10));
    Files.delete(killed);
    Command resumed = run("--resume", moved);
    assertThat(resumed.code()).as(resumed.err()).isZero();
    assertThat(resumed.out()).contains("Goes on with killed.jsonl, of which ").contains("PASSED");
    assertThat(resumed.out().replaceAll("\\s+", " "))
        .contains("note goes on with killed.jsonl; not run again: ");
    assertThat(RecordReader.read(ShortRun.recordIn(folder)).opened().serial()).isEqualTo("S-1");

    Command other = run("--resume", moved, "--serial", "S-2");
    assertThat(other.code()).isEqualTo(2);
    assertThat(other.err().lines()).hasSize(1);
    assertThat(other.err())
        .contains("these must be the same as then: serial number S-1 and order 4711");
    Command none = run("--resume", folder.resolve("none.jsonl"));
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err().lines()).hasSize(1);
  }
}

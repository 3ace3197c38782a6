package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.unit.FailAction;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A file to begin with: sound as it is, and nothing in it that could move a unit unasked. */
class NewCommandTest {
  @TempDir Path folder;

  private Path file(String name) {
    return folder.resolve(name);
  }

  @Test
  void aBenchBeginsSoundAndRunsNothing() throws Exception {
    Command made = Command.run("new", "bench", file("bench.toml"), "--set", "name=Bay 3");
    assertThat(made.err()).isEmpty();
    assertThat(made.code()).isZero();
    assertThat(Files.readString(file("bench.toml"))).startsWith("#:schema bench.schema.json\n");
    assertThat(file("bench.schema.json")).exists();
    Command check = Command.run("check", file("bench.toml"));
    assertThat(check.code()).as(check.out()).isZero();
    // No run begins by a certificate that nobody stated.
    for (InstrumentSpec spec : BenchFileReader.read(file("bench.toml")).instruments()) {
      assertThat(spec.calibration().due()).isEqualTo("2000-01-01");
    }
    assertThat(BenchFileReader.read(file("bench.toml")).name()).isEqualTo("Bay 3");
  }

  @Test
  void whatCouldMoveAUnitIsNeverGuessed() throws Exception {
    Command none = Command.run("new", "unit-type", file("unit.toml"));
    assertThat(none.code()).isEqualTo(2);
    assertThat(none.err()).contains("safe_signal_mA: nobody may guess it");
    assertThat(file("unit.toml")).doesNotExist();
    Command made =
        Command.run(
            "new",
            "unit-type",
            file("unit.toml"),
            "--set",
            "safe_signal_mA=4.0",
            "--set",
            "signal_loss=close");
    assertThat(made.err()).isEmpty();
    UnitType unit = UnitTypeReader.read(file("unit.toml"));
    assertThat(unit.signalLoss().action()).isEqualTo(FailAction.CLOSE);
    assertThat(unit.limits()).isEmpty();
    assertThat(Command.run("check", file("unit.toml")).code()).isZero();
  }

  @Test
  void aProcedureIsCheckedWithTheOthers() throws Exception {
    Command made =
        Command.run("new", "procedure", file("tests.toml"), "--set", "points_pct=0, 50, 100");
    assertThat(made.err()).isEmpty();
    Command check = Command.run("check", file("tests.toml"));
    assertThat(check.code()).as(check.out()).isZero();
  }

  @Test
  void nothingIsWrittenOver() throws Exception {
    Files.writeString(file("bench.toml"), "");
    Command made = Command.run("new", "bench", file("bench.toml"));
    assertThat(made.code()).isEqualTo(2);
    assertThat(made.err()).contains("exists, and nothing is written over");
    assertThat(file("bench.toml")).isEmptyFile();
  }

  @Test
  void aWrongAnswerIsToldWithWhatIsAllowed() {
    assertThat(Command.run("new", "bench", file("b.toml"), "--set", "source_address=COM3").err())
        .isEqualTo("source_address: found \"COM3\", allowed is tcp://host:port\n");
    assertThat(Command.run("new", "bench", file("b.toml"), "--set", "nam=x").err())
        .contains("--set: found nam; the questions are name, place,");
    assertThat(Command.run("new", "bench", file("b.toml"), "--set", "name=a\"b").err())
        .contains("allowed is a text without quotes");
    assertThat(Command.run("new", "benches", file("b.toml")).err())
        .isEqualTo("new: found \"benches\", allowed are bench, unit-type, procedure\n");
    assertThat(Command.run("new", "procedure", file("b.toml"), "--questions").out())
        .contains("points_pct", "cycles");
    assertThat(file("b.toml")).doesNotExist();
  }

  @Test
  void aScanAnswersWhereTheModuleIs() throws Exception {
    Path scan =
        Files.writeString(
            file("scan.json"),
            "{\"format\":1,\"address\":\"tcp://192.0.2.77:502\",\"asked\":9,\"answers\":["
                + "{\"unit_id\":7,\"reply\":\"value\",\"device\":true,"
                + "\"words\":\"holding 0 reads 00 01\\nkind = 1\"}]}");
    Command made = Command.run("new", "bench", file("found.toml"), "--from", scan);
    assertThat(made.err()).isEmpty();
    String text = Files.readString(file("found.toml"));
    assertThat(text)
        .contains("address = \"tcp://192.0.2.77:502\"", "unit_id = 7")
        .contains("# Found by a scan of tcp://192.0.2.77:502:")
        .contains("#   unit id 7: holding 0 reads 00 01?kind = 1");
    assertThat(Command.run("new", "procedure", file("p.toml"), "--from", scan).err())
        .contains("--from: goes with a bench");
    Path other = Files.writeString(file("other.json"), "[]");
    assertThat(Command.run("new", "bench", file("o.toml"), "--from", other).err())
        .contains("is neither what");
  }
}

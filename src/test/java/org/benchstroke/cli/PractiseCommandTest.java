package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.simulator.practice.FaultDraw;
import org.benchstroke.simulator.practice.MysteryUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PractiseCommandTest {
  @TempDir Path folder;

  @Test
  void namesTheCauseAfterATestAndAMistake() throws Exception {
    Cause hidden = MysteryUnit.of(Path.of("demo-data"), 7).hidden();
    int number = FaultDraw.causes().indexOf(hidden) + 1;
    Command done = typed("3\n99\nwhat\nn\n" + number + "\n");
    assertThat(done.code()).isZero();
    assertThat(done.out())
        .contains("dead time")
        .contains("\"99\": type a number from 1 to 9, or n.")
        .contains("Right: " + hidden.title())
        .contains("of 100 (right;")
        .contains("the unit's own manual comes first");
    assertThat(Files.readString(folder.resolve("demo/simulators/unit-7.toml")))
        .contains("What is hidden: " + hidden.title());
  }

  @Test
  void aWrongCauseIsNoPass() throws Exception {
    Cause hidden = MysteryUnit.of(Path.of("demo-data"), 7).hidden();
    int other = FaultDraw.causes().indexOf(hidden) == 6 ? 7 : 6;
    Command done = typed("n\n" + (other + 1) + "\n");
    assertThat(done.code()).isEqualTo(1);
    assertThat(done.out()).contains("It was: " + hidden.title()).contains("You said: ");
  }

  @Test
  void givingUpIsNoPassEither() {
    Command done = typed("q\n");
    assertThat(done.code()).isEqualTo(1);
    assertThat(done.out()).contains("You named no cause. It was: ");
  }

  @Test
  void aFolderThatCantBeIsOneClearLine() throws Exception {
    Path file = Files.writeString(folder.resolve("file"), "in the way");
    Command refused = Command.run("practise", "--records", file.resolve("records"));
    assertThat(refused.code()).isEqualTo(2);
    assertThat(refused.err()).contains("can't be written").contains("name another place");
  }

  private Command typed(String lines) {
    return Command.typed(lines, "practise", "--unit", 7, "--records", folder);
  }
}

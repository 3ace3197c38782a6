package org.benchstroke.web.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.web.Right;
import org.benchstroke.web.access.SignIn.Result;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class OperatorsTest {
  private static final String ANN = Secrets.hash("482913");
  private static final NamedOperator DRIVER =
      new NamedOperator("A \"quoted\" \\ name", Right.DRIVE, ANN);

  @TempDir Path folder;

  private final HandClock clock = new HandClock();

  private Path file() {
    return folder.resolve(OperatorsFile.NAME);
  }

  @Test
  void whatIsWrittenIsReadAndForNobodyElse() throws Exception {
    OperatorsFile written =
        new OperatorsFile(List.of(DRIVER, new NamedOperator("Ben", Right.READ, ANN)));
    written.write(file());
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file())))
        .isEqualTo("rw-------");
    assertThat(OperatorsFile.read(file())).isEqualTo(written);
    assertThat(written.find("BEN ")).isPresent();
    assertThat(written.without("ben").operators()).containsExactly(DRIVER);
    assertThat(DRIVER.toString()).doesNotContain("argon");
  }

  @Test
  void aFileThatOthersMayReadIsRefused() throws Exception {
    new OperatorsFile(List.of(DRIVER)).write(file());
    Files.setPosixFilePermissions(file(), PosixFilePermissions.fromString("rw-r-----"));
    assertThatThrownBy(() -> OperatorsFile.read(file()))
        .isInstanceOf(FileMistakes.class)
        .hasMessageContaining("chmod 600");
  }

  @Test
  void aPinThatStandsThereAsItIsIsNotShown() throws Exception {
    Files.writeString(
        file(),
        """
        kind = "operators"
        format = 1
        [[operator]]
        name = "Ann"
        right = "drive"
        secret = "482913"
        [[operator]]
        name = "ann"
        right = "boss"
        secret = "705218"
        """);
    assertThatThrownBy(() -> OperatorsFile.read(file()))
        .isInstanceOf(FileMistakes.class)
        .hasMessageContaining(":6: operator[1].secret: is not a hash")
        .hasMessageContaining("a second time")
        .hasMessageContaining("\"authorise\"")
        .hasMessageNotContaining("482913");
  }

  @Test
  void aChangeIsInForceAtOnceAndASpoiltFileIsLeftAside() throws Exception {
    Operators operators = new Operators(Optional.of(file()), clock);
    assertThat(operators.now()).isEmpty();
    new OperatorsFile(List.of(DRIVER)).write(file());
    clock.forward(Duration.ofSeconds(1));
    assertThat(operators.now()).isPresent();
    Files.writeString(file(), "kind = \"operators\"\n");
    Files.setLastModifiedTime(file(), FileTime.fromMillis(1));
    clock.forward(Duration.ofSeconds(1));
    assertThat(operators.now().orElseThrow().operators()).containsExactly(DRIVER);
    Files.delete(file());
    clock.forward(Duration.ofSeconds(1));
    assertThat(operators.now()).as("nobody gets in because a file is gone").isPresent();
  }

  @Test
  void attemptsFromElsewhereDontSlowTheBenchItself() throws Exception {
    new OperatorsFile(List.of(DRIVER)).write(file());
    SignIn signIn = new SignIn(new Operators(Optional.of(file()), clock), clock);
    InetAddress here = InetAddress.getLoopbackAddress();
    for (int i = 0; i < 6; i++) {
      InetAddress elsewhere = InetAddress.getByName("192.0.2." + i);
      Result result = signIn.prove(DRIVER.name(), "wrong-one", elsewhere);
      assertThat(result).isInstanceOf(i < 3 ? Result.Wrong.class : Result.TooSoon.class);
    }
    assertThat(signIn.prove(DRIVER.name(), "482913", InetAddress.getByName("192.0.2.77")))
        .isEqualTo(new Result.TooSoon(1));
    assertThat(signIn.prove(DRIVER.name(), "482913", here)).isEqualTo(new Result.Proven(DRIVER));
  }

  @Test
  void aNetworkOfTheSixthVersionIsOneAddress() throws Exception {
    new OperatorsFile(List.of(DRIVER)).write(file());
    SignIn signIn = new SignIn(new Operators(Optional.of(file()), clock), clock);
    for (int i = 0; i < 3; i++) {
      signIn.prove("nobody", "x", InetAddress.getByName("2001:db8::" + i));
    }
    assertThat(signIn.prove("nobody", "x", InetAddress.getByName("2001:db8::99")))
        .isInstanceOf(Result.TooSoon.class);
    assertThat(signIn.prove("nobody", "x", InetAddress.getByName("2001:db8:1::99")))
        .isInstanceOf(Result.Wrong.class);
  }

  /** Whatever somebody types for a name. */
  @Test
  void aLineOfTheLogStaysALine() {
    assertThat(Door.plain("Ann\n08:00 WARN all is well\r\u001b[2K\u2028x"))
        .doesNotContain("\n", "\r", "\u001b", "\u2028")
        .startsWith("Ann 08:00");
    assertThat(Door.plain("x".repeat(1000))).hasSizeLessThan(70);
  }
}

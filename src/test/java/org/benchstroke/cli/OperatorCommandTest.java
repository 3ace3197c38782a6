package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.benchstroke.app.ExitCode;
import org.benchstroke.web.Right;
import org.benchstroke.web.access.NamedOperator;
import org.benchstroke.web.access.OperatorsFile;
import org.benchstroke.web.access.Secrets;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

class OperatorCommandTest {
  @TempDir Path folder;

  private Path shop;

  @BeforeEach
  void shop() throws Exception {
    shop = folder.resolve("shop.toml");
    Files.writeString(
        shop,
        "kind = \"shop\"\nformat = 1\nname = \"Invented\"\nsupervisors = [\"C. Instance\"]\n");
  }

  private Command operator(String typed, Object... arguments) {
    Object[] all = new Object[arguments.length + 3];
    all[0] = "operator";
    System.arraycopy(arguments, 0, all, 1, arguments.length);
    all[all.length - 2] = "--shop";
    all[all.length - 1] = shop;
    return Command.typed(typed, all);
  }

  private OperatorsFile file() throws Exception {
    return OperatorsFile.read(OperatorsFile.beside(shop));
  }

  @Test
  void oneIsAddedChangedListedAndRemoved() throws Exception {
    Command added = operator("482913\n", "add", "A. Example");
    assertThat(added.code()).as(added.err()).isEqualTo(ExitCode.PASSED);
    NamedOperator ann = file().find("a. example").orElseThrow();
    assertThat(ann.right()).isEqualTo(Right.DRIVE);
    assertThat(Secrets.is(ann.secret(), "482913")).isTrue();

    Command changed = operator("hex key and a valve\n", "add", "a. example", "--right", "read");
    assertThat(changed.out()).contains("has another PIN or password");
    assertThat(file().operators()).hasSize(1);
    Command supervisor = operator("705218", "add", "B. Sample", "--right", "authorise");
    assertThat(supervisor.out()).contains("doesn't list them among its supervisors");
    assertThat(operator("", "list").out())
        .contains("a. example read")
        .contains("B. Sample  authorise")
        .doesNotContain("argon");
    assertThat(Command.run("check", OperatorsFile.beside(shop)).out())
        .contains("ok, a operators file");

    assertThat(operator("", "remove", "A. EXAMPLE").code()).isEqualTo(ExitCode.PASSED);
    Command last = operator("", "remove", "B. Sample");
    assertThat(last.code()).isEqualTo(ExitCode.WRONG_REQUEST);
    assertThat(last.err()).contains("is the only one");
    assertThat(file().operators()).hasSize(1);
  }

  @Test
  void whatWontDoChangesNothing() {
    assertThat(operator("1234\n", "add", "Ann").err()).contains("too short");
    assertThat(operator("123456\n", "add", "Ann").err()).contains("anybody tries");
    assertThat(operator("", "add", "Ann").err()).contains("too short");
    assertThat(operator("482913\n", "add", " ").err()).contains("NAME must have 1 to 200");
    assertThat(operator("482913\n", "add", "Ann", "--right", "boss").code())
        .isEqualTo(ExitCode.WRONG_REQUEST);
    assertThat(operator("x".repeat(5000), "add", "Ann").err()).contains("no line with a PIN");
    assertThat(operator("", "remove", "Ann").err()).contains("no such file");
    assertThat(operator("", "list").out()).contains("Nobody yet");
    assertThat(OperatorsFile.beside(shop)).doesNotExist();
    assertThat(Command.typed("482913\n", "operator", "add", "Ann").err()).contains("--shop FILE");
  }

  @Test
  void aScreenForTheNetworkWantsOperators() {
    for (String[] network :
        new String[][] {{"--address", "192.0.2.20"}, {"--address", "0.0.0.0"}, {"--name", "x"}}) {
      Command refused =
          Command.run("serve", "--shop", shop, "--bench", shop, network[0], network[1]);
      assertThat(refused.code()).isEqualTo(ExitCode.WRONG_REQUEST);
      assertThat(refused.err())
          .startsWith(network[0] + ": others on the network could move a unit")
          .contains("operator add NAME");
    }
    assertThat(Command.run("serve", "--demo", "--certificate", folder.resolve("no.p12")).err())
        .contains("no.p12: can't be read as PKCS#12");
  }

  /** Every mistake of every file, before a screen is opened. */
  @Test
  @Timeout(60)
  void aScreenIsNotOpenedOnABenchThatCanNotBeRead() throws Exception {
    Path bad =
        Files.writeString(folder.resolve("bad.toml"), "kind = \"bench\"\nformat = 1\nnam = 1\n");
    Path none = folder.resolve("none.toml");
    Command refused = Command.run("serve", "--bench", bad, "--bench", none, "--records", folder);
    assertThat(refused.code()).isEqualTo(ExitCode.WRONG_REQUEST);
    assertThat(refused.err()).contains(bad + ":3: nam: is not known here", none + ": ");
    assertThat(refused.out()).doesNotContain("http://");
  }
}

package org.benchstroke.cli;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16LE;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.benchstroke.DebianProgram;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Files as typing mistakes, other programs and other systems leave them. */
class RoughFilesTest {
  private static final Path BENCH = Path.of("demo-data/benches/by-hand.toml");
  private static final Path LOGGER = Path.of("demo-data/benches/logger.toml");
  private static final Path UNIT = Path.of("demo-data/unit-types/quarter-turn-15s.toml");
  private static final Path READINGS = Path.of("demo-data/recorded/readings.csv");
  private static final String HEAD = "setpoint [%],direction,cycle,reading [%]\n";

  @TempDir Path folder;

  private Command judge(Path csv, Path bench, Object... more) {
    Object[] all = new Object[6 + more.length];
    Object[] first = {"judge", csv, "--bench", bench, "--unit-type", UNIT};
    System.arraycopy(first, 0, all, 0, 6);
    System.arraycopy(more, 0, all, 6, more.length);
    return Command.run(all);
  }

  private Command readings(String text) throws IOException {
    return judge(Files.writeString(folder.resolve("r.csv"), text), BENCH);
  }

  /** What stands in a cell, and what is said about it; always of line 3. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "7S",
        "1e308",
        "1e999",
        "0x1p3",
        "7d",
        "1_000",
        "--5",
        "five",
        "1e",
        "٣",
        "1 000",
        "+-1",
        "Infinity",
        "-9999",
        "2026-06-01",
        "1111111111111111111111111111111111111111111"
      })
  void aCellThatIsNoNumberIsAMistakeOfTheFile(String cell) throws IOException {
    for (String row : List.of(cell + ",up,1,50.1\n", "50,up,1," + cell + "\n")) {
      Command told = readings(HEAD + "0,up,1,0.1\n" + row + "100,up,1,99.9\n");
      assertThat(told.code()).isEqualTo(2);
      assertThat(told.err().lines()).hasSize(1);
      assertThat(told.err()).contains("r.csv:3: column \"").contains("; allowed");
    }
  }

  @Test
  void allMistakesOfAFileAreToldAtOnce() throws IOException {
    Command told = readings(HEAD + "7S,up,1,0.1\n50,up,1,1e308\n" + HEAD + "100,up,1,99.9\n");
    assertThat(told.code()).isEqualTo(2);
    assertThat(told.err())
        .contains("r.csv:2: column \"setpoint [%]\": \"7S\"")
        .contains("r.csv:3: column \"reading [%]\"")
        .contains("r.csv:4: column \"setpoint [%]\": \"setpoint [%]\" is not a number");
    String many = HEAD + "x,up,1,0.1\n".repeat(5000);
    assertThat(readings(many).err()).hasLineCount(51).contains("and 4950 more");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '~',
      value = {
        "setpoint [%],setpoint [%],direction,reading [%]\\n0,0,up,0\\n ~ two columns are called",
        "a,b,c\\n1,2,3\\n ~ has neither the columns of a trace",
        "0,up,1,0.1\\n50,up,1,50\\n ~ has neither the columns of a trace",
        "setpoint [%],direction,reading [%]\\n0,\"up,0.1\\n50,up,50\\n ~ r.csv:2: a quote is out",
        "setpoint [%],direction,reading [%]\\n"
            + "\"0\"x,up,0.1\\n"
            + "50,up,50\\n"
            + " ~ r.csv:2: a quote is out",
        "setpoint [%],direction,reading [%]\\n0,up,0.1,\\n ~ r.csv:2: has 4 cells where",
        "setpoint [%],direction,reading [%]\\n0,up,0\\u0000\\n ~ r.csv:2: holds a zero byte",
        "setpoint [%],direction,reading [%]\\n ~ holds no rows",
        "'' ~ holds no rows",
        "setpoint [%]|direction|reading [%]\\n0|up|0\\n ~ has neither the columns of a trace"
      })
  void aTableThatIsNoneIsToldInALine(String text, String told) throws IOException {
    String csv = text.replace("\\n", "\n").replace("\\u0000", "\0");
    Command command = readings(csv);
    assertThat(command.code()).isEqualTo(2);
    assertThat(command.err()).contains(told).hasLineCount(1);
  }

  @Test
  void aTableWithoutEndIsToldInALine() throws IOException {
    assertThat(readings("a,".repeat(1_000_000) + "\n1\n").err())
        .contains("has 1000001 cells; allowed are at most 500")
        .hasLineCount(1);
    assertThat(readings("a".repeat(1_000_000) + "\n1\n").err())
        .contains("r.csv:1: has a name of more than 200 characters")
        .hasLineCount(1);
    assertThat(readings(HEAD + "0,up,1,\"" + "9".repeat(1_000_000) + "\"\n").err())
        .contains("is not a number")
        .hasLineCount(1)
        .satisfies(line -> assertThat(line.length()).isLessThan(300));
  }

  @Test
  void otherWaysToWriteTheSameAreRead() throws IOException {
    String text = Files.readString(READINGS);
    Command plain = judge(READINGS, BENCH);
    for (String same :
        List.of(
            "\uFEFF" + text,
            text.replace("\n", "\r\n"),
            text.replace(",", ";").replace(".", ","),
            text.replace(",", "\t"),
            "# made up\n" + text.replace("50,up", "# said, \"so\n50,up"))) {
      Path csv = Files.writeString(folder.resolve("readings.csv"), same);
      assertThat(withoutDigest(judge(csv, BENCH))).as(same).isEqualTo(withoutDigest(plain));
    }
  }

  private static Command withoutDigest(Command told) {
    return new Command(told.code(), told.out().replaceFirst("[0-9a-f]{64}", ""), told.err());
  }

  /** A trace's stamps: the wrong century, an epoch of another, no stamp at all. */
  @ParameterizedTest
  @ValueSource(
      strings = {"+999999999-12-31T23:59:59", "9999-01-01T00:00:00", "1e300", "noon", "1e12"})
  void aTimeThatIsNoneIsAMistakeOfTheFile(String stamp) throws IOException {
    String zero = stamp.contains("-") ? "2026-06-01T08:00:00" : "0";
    String text = "time [s],setpoint [%],position [%]\n" + zero + ",0,0\n" + stamp + ",0,0\n";
    text = stamp.contains("-") ? text.replace("time [s]", "time") : text;
    Command told = judge(Files.writeString(folder.resolve("t.csv"), text), LOGGER);
    assertThat(told.code()).isEqualTo(2);
    assertThat(told.err()).contains("t.csv:3: column \"time").hasLineCount(1);
  }

  @Test
  @Timeout(value = 60, unit = TimeUnit.SECONDS)
  void aVeryLargeOrDeepFileIsRefusedSoon() throws IOException {
    String kind = "kind = \"bench\"\nformat = 1\n";
    assertBounded(kind + "a = " + "[".repeat(1000) + "]".repeat(1000) + "\n", "too deep");
    assertBounded(kind + "a = " + "[".repeat(200_000) + "\n", "too deep");
    assertBounded(kind + "a = " + "{a=".repeat(20_000) + "1" + "}".repeat(20_000), "too deep");
    assertBounded(kind + "a" + ".a".repeat(100_000) + " = 1\n", "too deep");
    assertBounded(kind + "[[instrument]]\nname = \"a\"\n".repeat(8000), "holds 8000, allowed");
    assertBounded(kind + "k1 = 1\n".repeat(1) + keys(15_000), "more; correct these first");
    assertBounded(kind + "@@@\n".repeat(50_000), "more; correct these first");
    assertBounded(kind + "a".repeat(200_000) + " = 1\n", "is not known here");
    assertBounded(kind + "name = \"" + "x".repeat(200_000) + "\"\n", "longer than 2000 char");
    assertBounded(kind + "x = \"" + "a\\n".repeat(200_000), "is larger than 250 kB");
  }

  private static String keys(int count) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < count; i++) {
      text.append("key").append(i).append(" = 1\n");
    }
    return text.toString();
  }

  private void assertBounded(String text, String told) throws IOException {
    Command check = Command.run("check", Files.writeString(folder.resolve("b.toml"), text));
    assertThat(check.code()).isEqualTo(2);
    assertThat(check.out()).contains(told);
    assertThat(check.out().lines().count()).isLessThan(60);
    assertThat(check.out().length()).isLessThan(60_000);
  }

  @ParameterizedTest
  @ValueSource(strings = {"nan", "inf", "-inf", "1e999", "99999999999999999999", "0x10p1", "7S"})
  void aNumberThatIsNoneIsAMistakeOfTheFile(String number) throws IOException {
    String text =
        Files.readString(UNIT).replaceFirst("stroke_time_s = \\S+", "stroke_time_s = " + number);
    assertThat(text).contains(number);
    Command check = Command.run("check", Files.writeString(folder.resolve("u.toml"), text));
    assertThat(check.code()).isEqualTo(2);
    assertThat(check.out()).containsPattern("u\\.toml:\\d+: ");
  }

  @Test
  void aMarkInFrontIsReadAwayAndOtherEncodingsAreNamed() throws IOException {
    String text = Files.readString(UNIT);
    Path file = Files.writeString(folder.resolve("u.toml"), "\uFEFF" + text);
    assertThat(Command.run("check", file).code()).isZero();
    Files.write(file, ("\uFEFF" + text).getBytes(UTF_16LE));
    assertThat(Command.run("check", file).out()).contains("is UTF-16 text; save it as UTF-8");
    Files.write(file, text.getBytes(UTF_16LE));
    assertThat(Command.run("check", file).out()).contains("is UTF-16 text; save it as UTF-8");
    Files.write(file, text.getBytes("UTF-32"));
    assertThat(Command.run("check", file).out()).contains("is UTF-32 text; save it as UTF-8");
    Files.write(file, "a = \"±°\"".getBytes(ISO_8859_1));
    assertThat(Command.run("check", file).out()).contains("is not UTF-8 text");
  }

  @Test
  @Timeout(value = 60, unit = TimeUnit.SECONDS)
  void whatIsNoFileIsToldInALineAndNeverWaitedFor() throws Exception {
    Path pipe = folder.resolve("pipe.csv");
    DebianProgram.require("mkfifo");
    assertThat(new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor()).isZero();
    for (Path none : List.of(pipe, Path.of("/dev/zero"), folder, folder.resolve("none.toml"))) {
      for (Command told :
          List.of(
              Command.run("check", none),
              Command.run("judge", none, "--bench", BENCH, "--unit-type", UNIT),
              Command.run("judge", READINGS, "--bench", none, "--unit-type", UNIT),
              Command.run("report", none),
              Command.run("simulate", none))) {
        assertThat(told.code()).isEqualTo(2);
        assertThat((told.out() + told.err()).lines().count()).isLessThan(3);
      }
    }
    Path large = folder.resolve("large.csv");
    Files.write(large, new byte[50_000_001]);
    assertThat(judge(large, BENCH).err()).contains("is larger than 50 MB").hasLineCount(1);
  }

  /** An option's number is one as people write it. */
  @ParameterizedTest
  @ValueSource(
      strings = {"NaN", "Infinity", "7d", "0x1p3", "1e999", "", " ", "2026-06-01", "1,5", "1_0"})
  void anOptionThatIsNoNumberIsTold(String number) {
    Command told = Command.run("simulate", "simulators/healthy-b.toml", "--time-scale", number);
    assertThat(told.code()).isEqualTo(2);
    assertThat(told.err()).contains("--time-scale").contains("allowed is a number");
  }

  /** What Java can't go on from ends as a test that could not be completed, in a line. */
  @Test
  void anErrorOfJavaIsNeverAJudgement() {
    assertThat(Main.overcome(new StackOverflowError())).hasLineCount(1).contains("too deep");
    assertThat(Main.overcome(new OutOfMemoryError("Java heap space")))
        .hasLineCount(1)
        .contains("Out of memory");
    assertThat(Main.overcome(new NoClassDefFoundError("a\nb"))).hasLineCount(1);
  }

  @Test
  void aBlankIsNoSerialNumber() {
    for (String option : List.of("--serial", "--operator", "--order")) {
      Object[] run = Command.runArguments(BENCH, UNIT, folder);
      for (String none : List.of("", "   ", "x".repeat(201))) {
        run[List.of(run).indexOf(option) + 1] = none;
        assertThat(Command.run(run).err())
            .isEqualTo(option + ": allowed is a text that is not blank, of up to 200 characters\n");
      }
    }
  }
}

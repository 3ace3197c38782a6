package org.benchstroke.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Path;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.scpi.ScpiHabits;
import org.benchstroke.io.scpi.ScpiSettings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** One change to a sound file, one message, at the line of the change. */
class LineMistakesTest {
  private static final Path BENCH = Path.of("demo-data/benches/line-bench.toml");

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "send_end = \"\\r\" |send_end = \"\" |allowed is 1 to 4 characters",
        "pause_ms = 20 |pause_ms = -1 |0 to 60000 ms",
        "'^\\?']|'^(\\?']|not a regular expression: Unclosed group at character 5",
        "at_opening = [\"REMOTE\"]|¶|no command at_opening that it could answer",
        "reply = '(?<maker>[^,]+),(?<model>[^,]+),(?<serial>[^,]+),(?<firmware>.+)'"
            + "|reply = '.+'|none of the groups maker, model, serial, firmware",
        "OUT {mA:%.3f}|OUT 12|has no place for the value",
        "OUT {mA:%.3f}|OUT {kA:%.3f}|the unit \"kA\" is not known; known: mA, uA, A, pct",
        "OUT {mA:%.3f}|OUT {mA:%s}|the format \"%s\" is not known",
        "OUT {mA:%.3f}|OUT {mA:%.2f}|steps of 0.01 mA, coarser than resolution_mA = 0.001",
        "OUT {mA:%.3f}|OUT {pct:%.3f}|zero_mA and full_mA",
        "on = \"OUT ON\"|on = \"OUT {mA:%.3f}\"|takes no value",
        "on = \"OUT ON\"|¶|on, off and reply_off belong together; missing: on",
        "reply_off = \"OFF\"|reply_off = \"OFF\"¶reply_on = \"ON\"|belong together",
        "reply = '#A1 (?<value>[-+]?\\d+)'|reply = '#A1 .*'|names no group \"value\"",
        "scale = 0.001 |scale = 0 |every reading would be the same",
        "checksum = \"xor8\" |checksum = \"xor9\" |\"lrc8\"",
        "checksum_skip = 1 |checksum_skip = 1¶checksum_mark2 = 1 |is not known here",
        "(?<open>[01])|(?<opened>[01])|the group \"opened\" is not a switch; known: closed, open",
        "not_made = \"0\"|not_made = \"1\"|is the same as made",
        "¶off = \"#R 0\"|¶off = \"#R 1\"|the same command as on",
        "reply_off = \"#R 0\"|reply_off = \"#R 1\"|the same pattern as reply_on",
        "ask = \"#D\"|ask = \"#Dä\"|not printable ASCII",
      })
  void oneMistakeOneMessage(String sound, String wrong, String message) throws FileMistakes {
    String text = TomlDocument.textOf(BENCH);
    assertThat(text).contains(lines(sound));
    String changed = text.replace(lines(sound), lines(wrong));
    FileMistakes mistakes = catchThrowableOfType(FileMistakes.class, () -> read(changed));
    assertThat(mistakes.mistakes()).hasSize(1);
    Mistake mistake = mistakes.mistakes().get(0);
    assertThat(mistake.text()).contains(message);
    assertThat(mistake.line())
        .isBetween(lineOf(text, lines(sound)) - 3, lineOf(text, lines(sound)) + 3);
  }

  @Test
  void allMistakesComeAtOnce() throws FileMistakes {
    String text =
        TomlDocument.textOf(BENCH)
            .replace("OUT {mA:%.3f}", "OUT")
            .replace("'^\\?'", "'('")
            .replace("scale = 0.001", "scale = 0")
            .replace("made = \"1\"", "");
    FileMistakes mistakes = catchThrowableOfType(FileMistakes.class, () -> read(text));
    assertThat(mistakes.mistakes()).hasSize(4);
  }

  @Test
  void aTypedInInstrumentHasNoAddressAndReadsTheStemOnly() throws FileMistakes {
    String typed =
        """

        [[instrument]]
        name = "protractor"
        roles = ["angle reference"]
        speaks = "typed in"
        serial = "PR-1"
        certificate = "C-1"
        calibrated = 2026-01-15
        due = 2027-12-31
        [instrument.angle_reference]
        accuracy = "±0.1 °"
        resolution_deg = 0.5
        scatter_deg = 0.2
        """;
    String scpi = TomlDocument.textOf(Path.of("demo-data/benches/wall-bench.toml"));
    InstrumentSpec spec = read(scpi + typed).playing(Role.ANGLE_REFERENCE).orElseThrow();
    assertThat(spec.typedIn()).isTrue();
    assertThat(spec.talk(DisplaySettings.class).orElseThrow().readingScatter()).isEqualTo(0.2);

    String address = scpi + typed.replace("serial", "address = \"tcp://h:1\"\nserial");
    assertThat(catchThrowableOfType(FileMistakes.class, () -> read(address)))
        .hasMessageContaining("instrument[4].address: is not known here");
    String scatter = scpi + typed.replace("scatter_deg = 0.2\n", "");
    assertThat(catchThrowableOfType(FileMistakes.class, () -> read(scatter)))
        .hasMessageContaining("scatter_deg: is missing");
    String roles =
        scpi + typed.replace("[\"angle reference\"]", "[\"angle reference\", \"motor power\"]");
    assertThat(catchThrowableOfType(FileMistakes.class, () -> read(roles)))
        .hasMessageContaining("\"motor power\" can't be typed in");
  }

  @Test
  void aTypedInLoopMeterHasAStepAndNoScatter() throws FileMistakes {
    String bench =
        TomlDocument.textOf(Path.of("demo-data/benches/wall-bench.toml"))
            .replaceFirst(
                "speaks = \"scpi\"\naddress = \"tcp://192.0.2.11:5025\"\nreply_timeout_ms = 500\n",
                "speaks = \"typed in\"\n")
            .replace("resolution_mA = 0.0001\n", "resolution_mA = 0.01\n");
    InstrumentSpec spec = read(bench).playing(Role.LOOP_METER).orElseThrow();
    assertThat(spec.typedIn()).isTrue();
    assertThat(spec.channels().get(Role.LOOP_METER).resolution()).isEqualTo(0.01);

    String perfect = bench.replace("resolution_mA = 0.01\n", "resolution_mA = 0\n");
    assertThat(catchThrowableOfType(FileMistakes.class, () -> read(perfect)))
        .hasMessageContaining("resolution_mA: must be above 0");
    String scatter = bench.replace("resolution_mA = 0.01\n", "resolution_mA=1\nscatter_deg=1\n");
    assertThat(catchThrowableOfType(FileMistakes.class, () -> read(scatter)))
        .hasMessageContaining("scatter_deg: is not known here");
    String missing = bench.replace("resolution_mA = 0.01\n", "");
    assertThat(catchThrowableOfType(FileMistakes.class, () -> read(missing)).mistakes()).hasSize(1);
  }

  @Test
  void anInstrumentThatSpeaksScpiMayHaveHabits() throws FileMistakes {
    String scpi = TomlDocument.textOf(Path.of("demo-data/benches/wall-bench.toml"));
    String talk =
        "[instrument.talk]\nsend_end = \"\\r\"\nreply_end = \"\\r\\n\"\nsettle = \"*OPC?\"\n"
            + "check = \"both\"\n[instrument.signal_source]";
    String changed = scpi.replace("[instrument.signal_source]", talk);
    ScpiHabits habits =
        read(changed).instruments().get(0).talk(ScpiSettings.class).orElseThrow().habits();
    assertThat(habits.manner().sendEnd()).isEqualTo("\r");
    assertThat(habits.settling()).isEqualTo(ScpiHabits.Settling.OPERATION_COMPLETE);
    assertThat(habits.checking()).isEqualTo(ScpiHabits.Checking.BOTH);
    assertThat(catchThrowableOfType(FileMistakes.class, () -> read(changed.replace("OPC", "OPX"))))
        .hasMessageContaining("\"*OPC?\"");
  }

  private static String lines(String cell) {
    return cell.replace('¶', '\n');
  }

  private static int lineOf(String text, String part) {
    return (int) text.substring(0, text.indexOf(part)).lines().count();
  }

  private static BenchFile read(String text) throws FileMistakes {
    return BenchFileReader.read(TomlDocument.parse("bench.toml", text));
  }
}

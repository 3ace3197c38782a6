package org.benchstroke.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Path;
import java.util.List;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.modbus.KeepAlive;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.modbus.Register;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The register map of a bench file. */
class ModbusMapTest {
  private static final Path BENCH = Path.of("src/test/resources/benches/one-rs485-line.toml");

  private static BenchFile read(String text) throws FileMistakes {
    return BenchFileReader.read(TomlDocument.parse("bench.toml", text));
  }

  private static String text() {
    try {
      return TomlDocument.textOf(BENCH);
    } catch (FileMistakes e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  private static List<Mistake> mistakes(String from, String to) {
    String text = text();
    assertThat(text).contains(from);
    FileMistakes found =
        catchThrowableOfType(
            FileMistakes.class, () -> read(text.replaceFirst("\\Q" + from + "\\E", to)));
    return found.mistakes();
  }

  private static ModbusSettings map(BenchFile file, int instrument) {
    return file.instruments().get(instrument).talk(ModbusSettings.class).orElseThrow();
  }

  @Test
  void everyKindOfRegisterIsRead() throws FileMistakes {
    BenchFile file = read(text());
    Register position = map(file, 1).registers().get(Role.POSITION_TRANSMITTER);
    assertThat(position.address()).isZero();
    assertThat(position.place()).isEqualTo("input 30001");
    assertThat(position.type()).isEqualTo(Register.Type.I32);
    assertThat(position.guard().noValue()).containsExactly(2147483647.0);
    assertThat(position.guard().plausible().orElseThrow().high()).isEqualTo(25.0);
    assertThat(position.guard().counter().orElseThrow().register().address()).isEqualTo(9);
    assertThat(position.guard().counter().orElseThrow().seconds()).isEqualTo(2.0);
    Register coil = map(file, 0).source().output().orElseThrow();
    assertThat(coil.place()).isEqualTo("coil 00001");
    KeepAlive keepAlive = map(file, 0).keepAlive().orElseThrow();
    assertThat(keepAlive.register().address()).isEqualTo(10);
    assertThat(keepAlive.values()).containsExactly(0.0, 1.0);
  }

  @Test
  void saysWhereEachValueWasUnderstoodToStand() throws FileMistakes {
    assertThat(read(text()).understood())
        .contains(
            "output module, unit 3: signal source at holding 40001 (address 0), u16"
                + " × 0.00036621546",
            "output module, unit 3: output at coil 00001 (address 0)",
            "output module, unit 3: keep-alive at holding 40011 (address 10), u16",
            "input module, unit 1: position transmitter at input 30001 (address 0), i32 DCBA"
                + " × 0.001",
            "input module, unit 1: position transmitter, counter at input 30010 (address 9), u16",
            "input module, unit 1: switch open at discrete 10003 (address 2)",
            "input module, unit 1: serial number at holding 100, bcd32 ABCD")
        .hasSize(13);
  }

  @ParameterizedTest
  @CsvSource({
    "30001, 0",
    "'\"30001\"', 0",
    "39999, 9998",
    "300001, 0",
    "365536, 65535",
    "0, 0",
    "5, 5",
    "'\"12\"', 12",
    "65535, 65535",
    "29999, 29999"
  })
  void anAddressMayBeWrittenBothWays(String written, int address) throws FileMistakes {
    String text =
        text().replace("address = 0\ntype = \"i16\"", "address = " + written + "\ntype = \"i16\"");
    Register register = map(read(text), 2).registers().get(Role.ANGLE_REFERENCE);
    assertThat(register.address()).isEqualTo(address);
    assertThat(register.written()).isEqualTo(written.replace("\"", ""));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "address = 30001 | address = 40001 | 40001 is how data sheets print a holding address",
        "address = 30001 | address = \"10001\" | print a discrete address, but the table is input",
        "address = 30001 | address = 70000 | found 70000, allowed is a whole number, 0 to 65535",
        "address = 30001 | address = 365537 | found 365537, allowed is",
        "address = 30001 | address = \"3x001\" | found \"3x001\", allowed is",
        "address = 30001 | address = 1.5 | found 1.5, allowed is",
        "address = \"10001\" | # nothing | address is missing; write a whole number",
        "address = 30003 | address = 30002 | loop meter at input 30002 (f64, 4 registers) overlaps",
        "address = 30010 | address = 30002 | position transmitter.counter at input 30002 overlaps",
        "unit_id = 2 | unit_id = 1 | \"input module\" is unit 1 at the same address",
        "unit_id = 2 | unit_id = 0 | allowed is a whole number, 1 to 247",
        "max_mA = 24 | max_mA = 24.1 | a u16 with this scale and offset can't hold it",
        "no_value = [0x7FFFFFFF] | no_value = 5 | allowed is a list of numbers before scale",
        "plausible = [0.0, 25.0] | plausible = [25.0, 0.0] | write two numbers, [lowest, highest]",
        "values = [0, 1] | values = [0, 0.5] | are whole numbers: [1], or [0, 1]",
        "period_ms = 500 | period_ms = 5 | allowed is a number, 50 to 600000 ms",
        "type = \"u16\" | type = \"u32\"\\n"
            + "write_function = 6 | 6 writes one register, but a u32 has",
        "type = \"u16\" | type = \"u16\"\\n"
            + "write_function = 7 | is 6 (one register) or 16 (several)",
        "type = \"u64\" | type = \"f64\" | a serial number is a whole number; not f64",
        "type = \"bcd32\" | type = \"bcd23\" | \"bcd16\" or \"bcd32\"",
        "scale = 0.01 | write_function = 6 | write_function: is not known here",
        "type = \"u16\" | type = \"u16\"\\nno_value = [1] | no_value: is not known here",
        "scale = 0.01 | scale = 0 | every reading would be the same",
      })
  void aMistakeSaysWhatIsAllowed(String from, String to, String words) {
    List<Mistake> mistakes = mistakes(from, to.replace("\\n", "\n"));
    assertThat(mistakes).anySatisfy(m -> assertThat(m.text()).contains(words));
    assertThat(mistakes).allSatisfy(m -> assertThat(m.line()).isPositive());
  }
}

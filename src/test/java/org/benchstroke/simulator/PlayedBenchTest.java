package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.transport.Endpoint;
import org.junit.jupiter.api.Test;

/** The simulator plays a bench file that a person wrote. */
class PlayedBenchTest {
  private static final Path BENCH = Path.of("demo-data/benches/wall-bench.toml");
  private static final Endpoint.Tcp SOURCE = new Endpoint.Tcp("192.0.2.10", 5025);
  private static final Endpoint.Tcp POSITION = new Endpoint.Tcp("192.0.2.12", 502);

  private static SimulatedBench played(String text) throws FileMistakes {
    Simulation simulation = SimulationReader.read(Path.of("simulators/healthy-b.toml"));
    return SimulatedBench.around(simulation, "my-bench.toml", text);
  }

  private static String text() throws FileMistakes {
    return TomlDocument.textOf(BENCH);
  }

  private static String modbus(SimulatedBench bench, String request) {
    byte[] reply = bench.connect(POSITION).feed(HexFormat.ofDelimiter(" ").parseHex(request));
    return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(reply);
  }

  @Test
  void scpiInstrumentsSayWhoTheBenchFileSaysTheyAre() throws FileMistakes {
    byte[] answer =
        played(text()).connect(SOURCE).feed("*IDN?\n".getBytes(StandardCharsets.US_ASCII));
    assertThat(new String(answer, StandardCharsets.US_ASCII))
        .isEqualTo("Example Instruments,LS24,1001,1.0\n");
  }

  @Test
  void serialNumberStandsWhereTheBenchFileSays() throws FileMistakes {
    // Holding registers 100 and 101, u32: 3003 is 0BBB in hexadecimal.
    assertThat(modbus(played(text()), "00 01 00 00 00 06 01 03 00 64 00 02"))
        .isEqualTo("00 01 00 00 00 07 01 03 04 00 00 0B BB");
  }

  @Test
  void valueIsCodedAsTheBenchFileSays() throws FileMistakes {
    String counts =
        text().replace("type = \"f32\"\norder = \"ABCD\"", "type = \"i16\"\nscale = 0.01");
    SimulatedBench bench = played(counts);
    String reply = modbus(bench, "00 01 00 00 00 06 01 04 00 00 00 01");
    int number = Integer.parseInt(reply.substring(reply.length() - 5).replace(" ", ""), 16);
    // The unit stands within its travel: 4 to 20 mA in steps of 10 µA.
    assertThat(number).isBetween(395, 2005);
    // One register alone holds it: the next is not there, exception 02.
    assertThat(modbus(bench, "00 01 00 00 00 06 01 04 00 01 00 01")).endsWith("84 02");
  }

  @Test
  void onlyAddressesAndTheSimulationTableDiffer() throws FileMistakes {
    String played =
        played(text())
            .benchToml(
                Map.of(
                    SOURCE,
                    new Endpoint.Tcp("127.0.0.1", 4001),
                    new Endpoint.Tcp("192.0.2.11", 5025),
                    new Endpoint.Tcp("127.0.0.1", 4002),
                    POSITION,
                    new Endpoint.Tcp("127.0.0.1", 4003)),
                1.0);
    List<String> back =
        played
            .replace("tcp://127.0.0.1:4001", SOURCE.text())
            .replace("tcp://127.0.0.1:4002", "tcp://192.0.2.11:5025")
            .replace("tcp://127.0.0.1:4003", POSITION.text())
            .lines()
            .toList();
    int table = back.indexOf("[simulation]");
    assertThat(back.get(table + 1)).startsWith("shows = \"A sound quarter-turn unit");
    assertThat(back.get(table + 2)).isEqualTo("time_scale = 1");
    List<String> rest = new java.util.ArrayList<>(back);
    rest.subList(table, table + 4).clear();
    assertThat(rest).isEqualTo(text().lines().toList());
  }

  @Test
  void simulationTableThatIsThereIsReplacedAndAShortPeriodMadeLonger() throws FileMistakes {
    String again = played(played(text()).benchToml(Map.of(), 1.0)).benchToml(Map.of(), 20.0);
    assertThat(again.lines().filter("[simulation]"::equals)).hasSize(1);
    assertThat(again).contains("time_scale = 20\n").contains("sample_period_ms = 250 ");
  }

  @Test
  void aSerialNumberThatNoRegisterHoldsIsNamed() throws FileMistakes {
    String lettered = text().replace("serial = \"3003\"", "serial = \"PX-3003\"");
    FileMistakes mistakes = catchThrowableOfType(FileMistakes.class, () -> played(lettered));
    assertThat(mistakes.getMessage())
        .contains("my-bench.toml", "position input", "PX-3003", "digits alone");
  }

  @Test
  void oneAddressSpeaksOneLanguage() throws FileMistakes {
    String mixed = text().replace("tcp://192.0.2.12:502\"", "tcp://192.0.2.10:5025\"");
    FileMistakes mistakes = catchThrowableOfType(FileMistakes.class, () -> played(mixed));
    assertThat(mistakes.getMessage()).contains("position input", "two languages at one address");
  }

  @Test
  void anAddressThatCannotBeReplacedIsNeverDialled() throws FileMistakes {
    String hidden =
        text()
            .replace(
                "address = \"tcp://192.0.2.10:5025\"", "\"address\" = \"tcp://192.0.2.10:5025\"");
    FileMistakes mistakes = catchThrowableOfType(FileMistakes.class, () -> played(hidden));
    assertThat(mistakes.getMessage()).contains("source", "in a line of its own");
  }

  @Test
  void theMotorSupplyIsSwitchedByHandWhereThereIsNoRelay() throws FileMistakes {
    String text = text();
    int relay = text.indexOf("[instrument.motor_power]");
    String bare = text.substring(0, relay).replace(", \"motor power\"", "");
    assertThat(played(text).switchedByHand()).isFalse();
    SimulatedBench bench = played(bare);
    assertThat(bench.switchedByHand()).isTrue();
    assertThat(bench.motorSupply()).isFalse();
    // Its loop is open, so with power it closes; the wall bench's input 0 is the closed switch.
    bench.motorSupply(true);
    bench.advanceTo(30_000_000_000L);
    assertThat(modbus(bench, "00 01 00 00 00 06 01 02 00 00 00 01")).endsWith("01 01");
  }
}

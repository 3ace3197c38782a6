package org.benchstroke.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.app.BenchLinks;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.commission.ModbusScan;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.modbus.ModbusLine;
import org.benchstroke.io.modbus.ModbusRtuLine;
import org.benchstroke.io.modbus.ModbusTcpLine;
import org.benchstroke.io.modbus.RtuTiming;
import org.benchstroke.io.modbus.UnitIdCheck;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PortName;
import org.benchstroke.io.transport.SerialSettings;
import org.benchstroke.papers.Json;
import org.benchstroke.run.StopSwitch;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Finds the Modbus devices of a line. */
@Command(
    name = "scan",
    description = {
      Commands.SCAN,
      "Asks each with one read of one register. Reads only: it changes nothing on any device.",
      ""
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Exit codes: 0 a device answered, 2 the request was wrong, 3 none answered.",
      "",
      "Example:",
      "  benchstroke scan tcp://192.0.2.12:502 --from 1 --to 16",
      "  benchstroke scan serial:COM3 --speed 9600 --parity none --stop-bits 2"
    })
final class ScanCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "ADDRESS",
      description =
          "The line: tcp://host:port, serial:/dev/ttyUSB0, serial:COM3, or usb:9999:0001.")
  private String address;

  @Option(
      names = "--rtu",
      description = "Speaks Modbus RTU over TCP; a serial port always speaks RTU.")
  private boolean rtu;

  @Option(
      names = "--speed",
      paramLabel = "BAUD",
      description = "Of a serial port (default: 19200).")
  private Optional<Integer> speed;

  @Option(
      names = "--parity",
      paramLabel = "WORD",
      description = "Of a serial port: ${COMPLETION-CANDIDATES} (default: even).")
  private Optional<SerialSettings.Parity> parity;

  @Option(
      names = "--stop-bits",
      paramLabel = "N",
      description = "Of a serial port: 1 or 2 (default: 1).")
  private Optional<Integer> stopBits;

  @Option(
      names = "--from",
      paramLabel = "ID",
      defaultValue = "1",
      description = "First unit id, 0 to 255 (default: ${DEFAULT-VALUE}).")
  private int from;

  @Option(
      names = "--to",
      paramLabel = "ID",
      defaultValue = "247",
      description = "Last unit id (default: ${DEFAULT-VALUE}, the last on a serial line).")
  private int to;

  @Option(
      names = "--timeout-ms",
      paramLabel = "N",
      defaultValue = "300",
      description = "How long each reply may take, 10 to 60000 (default: ${DEFAULT-VALUE} ms).")
  private int timeoutMillis;

  @Option(names = "--json", description = "Prints what answered as JSON, and nothing else.")
  private boolean json;

  @Mixin private CaptureFolder capture;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest {
    Endpoint endpoint = endpoint();
    boolean framed = rtu || endpoint instanceof Endpoint.Serial;
    int lowest = framed ? 1 : 0;
    int highest = framed ? 247 : 255;
    if (from < lowest || to > highest || from > to) {
      throw new WrongRequest(
          "--from, --to: found %d to %d, allowed is %d to %d, first to last"
              .formatted(from, to, lowest, highest));
    }
    if (timeoutMillis < 10 || timeoutMillis > 60_000) {
      throw new WrongRequest("--timeout-ms: found " + timeoutMillis + ", allowed is 10 to 60000");
    }
    BenchLinks.Wanted wanted = new BenchLinks.Wanted(Map.of("the line", endpoint), "a scan");
    try (BenchLinks links = capture.links(wanted, Shown.err(spec))) {
      return scan(endpoint, framed, links);
    }
  }

  private int scan(Endpoint endpoint, boolean framed, BenchLinks links) {
    Shown out = json ? Shown.nothing() : Shown.out(spec);
    BenchClock clock = SystemClock.realTime();
    ScanScreen screen = new ScanScreen(out, !json && Terminals.isThere());
    out.println(
        "Scan of "
            + endpoint.text()
            + ", unit ids "
            + from
            + " to "
            + to
            + ": reads one register of each, changes nothing");
    out.flush();
    try {
      ModbusLine line =
          framed
              ? new ModbusRtuLine(links.opener(), endpoint, RtuTiming.of(endpoint), clock)
              : new ModbusTcpLine(links.opener(), endpoint, clock);
      List<ModbusScan.Asked> all =
          new ModbusScan(line, clock, timeoutMillis * 1_000_000L)
              .scan(from, to, new StopSwitch(), screen::asked);
      if (json) {
        Shown.out(spec).println(Json.line(told(endpoint, all)));
      }
      return screen.tellEnd(all) ? ExitCode.PASSED : ExitCode.NOT_COMPLETED;
    } catch (InstrumentException e) {
      Shown.err(spec).println(e.getMessage());
      return ExitCode.NOT_COMPLETED;
    }
  }

  /** What answered; of the others there is nothing to say but how many they are. */
  private static Map<String, Object> told(Endpoint endpoint, List<ModbusScan.Asked> all) {
    List<Map<String, Object>> answers = new ArrayList<>();
    for (ModbusScan.Asked asked : all) {
      if (asked.answer().reply() != UnitIdCheck.Reply.NOTHING) {
        Map<String, Object> answer = new LinkedHashMap<>();
        answer.put("unit_id", asked.unitId());
        answer.put("reply", asked.answer().reply().name().toLowerCase(Locale.ROOT));
        answer.put("device", asked.answer().proves());
        answer.put("words", asked.answer().words());
        answers.add(answer);
      }
    }
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("format", 1);
    told.put("address", endpoint.text());
    told.put("asked", all.size());
    told.put("answers", answers);
    return told;
  }

  private Endpoint endpoint() throws WrongRequest {
    Optional<Endpoint.Tcp> tcp = Endpoint.Tcp.parse(address);
    boolean serialOptions = speed.isPresent() || parity.isPresent() || stopBits.isPresent();
    if (tcp.isPresent() && serialOptions) {
      throw new WrongRequest("--speed, --parity and --stop-bits go with a serial port only");
    }
    if (tcp.isPresent()) {
      return tcp.get();
    }
    Optional<PortName> port = PortName.parse(address);
    if (port.isEmpty()) {
      throw new WrongRequest(
          "found \"" + address + "\", allowed is \"tcp://host:port\", or " + PortName.ALLOWED);
    }
    return new Endpoint.Serial(port.get(), settings());
  }

  private SerialSettings settings() throws WrongRequest {
    SerialSettings usual = SerialSettings.USUAL;
    int stop = stopBits.orElse(1);
    if (stop != 1 && stop != 2) {
      throw new WrongRequest("--stop-bits: found " + stop + ", allowed is 1 or 2");
    }
    try {
      return new SerialSettings(
          speed.orElse(usual.speed()),
          usual.dataBits(),
          parity.orElse(usual.parity()),
          stop == 2 ? SerialSettings.StopBits.TWO : SerialSettings.StopBits.ONE,
          usual.flowControl(),
          Optional.empty());
    } catch (IllegalArgumentException e) {
      throw new WrongRequest("--speed: " + e.getMessage());
    }
  }
}

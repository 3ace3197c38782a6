package org.benchstroke.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.clock.BenchClock;
import org.benchstroke.clock.SystemClock;
import org.benchstroke.commission.ModbusScan;
import org.benchstroke.instrument.InstrumentException;
import org.benchstroke.instrument.modbus.ModbusTcpLine;
import org.benchstroke.instrument.modbus.UnitIdCheck;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.transport.Endpoint;
import org.benchstroke.transport.SystemLinks;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Finds the Modbus devices of a line. */
@Command(
    name = "scan",
    description = {
      "Asks each Modbus unit id of a line that you name whether a device is there, with one read",
      "of one register. Reads only: it changes nothing on any device.",
      ""
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Exit codes: 0 a device answered, 2 the request was wrong, 3 none answered.",
      "",
      "Example:",
      "  benchstroke scan tcp://192.0.2.12:502 --from 1 --to 16"
    })
final class ScanCommand implements Callable<Integer> {
  private static final Pattern TCP = Pattern.compile("tcp://([A-Za-z0-9._-]+):([0-9]{1,5})");

  @Parameters(paramLabel = "ADDRESS", description = "The line: tcp://host:port.")
  private String address;

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
      description = "How long each may take, 10 to 60000 (default: ${DEFAULT-VALUE} ms).")
  private int timeoutMillis;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest {
    Endpoint endpoint = endpoint();
    if (from < 0 || to > 255 || from > to) {
      throw new WrongRequest(
          "--from, --to: found " + from + " to " + to + ", allowed is 0 to 255, first to last");
    }
    if (timeoutMillis < 10 || timeoutMillis > 60_000) {
      throw new WrongRequest("--timeout-ms: found " + timeoutMillis + ", allowed is 10 to 60000");
    }
    PrintWriter out = spec.commandLine().getOut();
    BenchClock clock = SystemClock.realTime();
    ModbusTcpLine line = new ModbusTcpLine(new SystemLinks(), endpoint, clock);
    ScanScreen screen = new ScanScreen(out, Terminal.isThere());
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
      List<ModbusScan.Asked> all =
          new ModbusScan(line, clock, timeoutMillis * 1_000_000L)
              .scan(from, to, new StopSwitch(), screen::asked);
      return screen.tellEnd(all) ? ExitCode.PASSED : ExitCode.NOT_COMPLETED;
    } catch (InstrumentException e) {
      spec.commandLine().getErr().println(e.getMessage());
      return ExitCode.NOT_COMPLETED;
    }
  }

  private Endpoint endpoint() throws WrongRequest {
    Matcher tcp = TCP.matcher(address);
    if (tcp.matches()) {
      int port = Integer.parseInt(tcp.group(2));
      if (port >= 1 && port <= 65535) {
        return new Endpoint.Tcp(tcp.group(1), port);
      }
    }
    throw new WrongRequest(
        "found \"" + address + "\", allowed is tcp://host:port, port 1 to 65535");
  }

  /** Shows the scan: what answered stays, the progress is one line on a terminal. */
  private static final class ScanScreen {
    private static final String CLEAR_LINE = "\r\u001b[K";
    private static final int PLAIN_EVERY = 50;

    private final PrintWriter out;
    private final boolean live;

    ScanScreen(PrintWriter out, boolean live) {
      this.out = out;
      this.live = live;
    }

    void asked(ModbusScan.Asked asked) {
      UnitIdCheck.Answer answer = asked.answer();
      if (answer.proves() || answer.reply() == UnitIdCheck.Reply.UNSOUND) {
        print(
            String.format(
                Locale.ROOT,
                "  unit id %3d  %-14s %s",
                asked.unitId(),
                word(answer),
                answer.words()));
      }
      String left =
          asked.left()
              + " unit ids left, at most "
              + Numbers.fixed(asked.longestSecondsLeft(), 0)
              + " s";
      if (live) {
        out.print(CLEAR_LINE + (asked.left() == 0 ? "" : "  " + left));
      } else if (asked.left() > 0 && asked.left() % PLAIN_EVERY == 0) {
        out.println("  " + left);
      }
      out.flush();
    }

    private static String word(UnitIdCheck.Answer answer) {
      return switch (answer.reply()) {
        case VALUE, EXCEPTION -> "a device";
        default -> "not sound";
      };
    }

    private void print(String line) {
      out.println(live ? CLEAR_LINE + line : line);
    }

    /** Tells the sum; whether any device answered. */
    boolean tellEnd(List<ModbusScan.Asked> all) {
      long devices = all.stream().filter(each -> each.answer().proves()).count();
      long gateway = count(all, UnitIdCheck.Reply.GATEWAY);
      long unsound = count(all, UnitIdCheck.Reply.UNSOUND);
      out.println(devices + " of " + all.size() + " unit ids answered");
      if (gateway > 0) {
        out.println(
            "  for "
                + gateway
                + " a gateway answered that nobody is there; its exception proves no device");
      }
      if (unsound > 0) {
        out.println(
            "  unsound replies: two devices with one unit id, wrong settings of the line, or noise");
      }
      if (devices == all.size() && all.size() > 2) {
        out.println(
            "  every unit id answered: this is one device that takes any unit id, as many on"
                + " Modbus TCP do");
      }
      if (devices == 0 && gateway == 0) {
        out.println(
            "  nobody answered: check power and wiring, that this is Modbus TCP, and try a longer"
                + " --timeout-ms");
      }
      out.flush();
      return devices > 0;
    }

    private static long count(List<ModbusScan.Asked> all, UnitIdCheck.Reply reply) {
      return all.stream().filter(each -> each.answer().reply() == reply).count();
    }
  }
}

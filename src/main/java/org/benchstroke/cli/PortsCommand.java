package org.benchstroke.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.io.transport.LinkException;
import org.benchstroke.io.transport.SerialPorts;
import org.benchstroke.papers.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Lists the serial ports. */
@Command(
    name = "ports",
    description = {
      Commands.PORTS,
      "Each is shown with what the system knows of it and how a bench file names it. Opens none."
    },
    mixinStandardHelpOptions = true)
final class PortsCommand implements Callable<Integer> {
  @Option(names = "--json", description = "Lists the ports as JSON.")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    List<SerialPorts.Found> ports = list();
    Shown out = Shown.out(spec);
    if (json) {
      out.println(Json.line(ports));
    } else {
      PortsTable.print(ports, out);
    }
    return ExitCode.PASSED;
  }

  private static List<SerialPorts.Found> list() throws WrongRequest {
    try {
      return SerialPorts.list();
    } catch (LinkException e) {
      throw new WrongRequest(e.getMessage());
    }
  }
}

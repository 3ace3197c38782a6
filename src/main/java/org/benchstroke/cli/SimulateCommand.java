package org.benchstroke.cli;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.benchstroke.clock.SystemClock;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.simulator.SimulatedBench;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.simulator.SimulationReader;
import org.benchstroke.simulator.SimulatorServer;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Serves a simulated bench. */
@Command(
    name = "simulate",
    description = {
      "Serves a simulated bench until Ctrl-C.",
      "Its instruments speak SCPI and Modbus TCP on this machine; the bench file that fits them is"
          + " written first."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {"", "Example:", "  benchstroke simulate simulators/span-error.toml --time-scale 20"})
final class SimulateCommand implements Callable<Integer> {
  @Parameters(paramLabel = "FILE", description = "The simulation file, see simulators/.")
  private Path file;

  @Option(
      names = "--time-scale",
      paramLabel = "N",
      defaultValue = "1",
      description = "Bench seconds per second of the wall, 0.1 to 100 (default: 1, real time).")
  private double timeScale;

  @Option(
      names = "--bench-file",
      paramLabel = "FILE",
      defaultValue = "records/simulated-bench.toml",
      description = "Where to write the bench file (default: ${DEFAULT-VALUE}).")
  private Path benchFile;

  @Option(
      names = "--port",
      paramLabel = "PORT",
      defaultValue = "0",
      description = "First of three TCP ports in a row (default: any that are free).")
  private int firstPort;

  @Option(names = "--json", description = "Prints the addresses and the bench file as JSON.")
  private boolean json;

  @Option(names = "--until-input-ends", hidden = true)
  private boolean untilInputEnds;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    PrintWriter out = spec.commandLine().getOut();
    if (!(timeScale >= 0.1 && timeScale <= 100.0)) {
      throw new WrongRequest("--time-scale: found " + timeScale + ", allowed is 0.1 to 100");
    }
    if (firstPort < 0 || firstPort > 65533) {
      throw new WrongRequest("--port: found " + firstPort + ", allowed is 0 to 65533");
    }
    Simulation simulation = SimulationReader.read(file);
    try (SimulatorServer server = serve(simulation)) {
      RecordFiles.write(benchFile, server.benchToml());
      tell(out, simulation, server);
      waitForTheEnd();
    }
    return ExitCode.PASSED;
  }

  private SimulatorServer serve(Simulation simulation) throws WrongRequest {
    Map<SimulatedBench.Port, Integer> ports = new EnumMap<>(SimulatedBench.Port.class);
    if (firstPort > 0) {
      int next = firstPort;
      for (SimulatedBench.Port port : SimulatedBench.Port.values()) {
        ports.put(port, next++);
      }
    }
    try {
      return SimulatorServer.start(
          new SimulatedBench(simulation), SystemClock.scaled(timeScale), ports);
    } catch (IOException e) {
      throw new WrongRequest("--port: " + e.getMessage());
    }
  }

  private void tell(PrintWriter out, Simulation simulation, SimulatorServer server)
      throws IOException {
    if (json) {
      Map<String, Object> told = new LinkedHashMap<>();
      told.put("simulation", simulation.name());
      server.addresses().forEach((port, address) -> told.put(words(port), address.text()));
      told.put("benchFile", benchFile.toString());
      told.put("bench", server.benchToml());
      out.println(new ObjectMapper().writeValueAsString(told));
      out.flush();
      return;
    }
    out.println("SIMULATED bench: " + simulation.name());
    out.println(simulation.shows());
    out.println();
    server
        .addresses()
        .forEach((port, address) -> out.printf("  %-16s %s%n", words(port), address.text()));
    out.println("  time             " + Numbers.plain(timeScale) + " × real time");
    out.println();
    out.println("Bench file:  " + benchFile);
    out.println("Unit type:   " + simulation.unitTypeFile());
    out.println();
    out.println("In another terminal:");
    out.println(
        Invocation.program()
            + " run --unattended --bench "
            + benchFile
            + " --unit-type "
            + simulation.unitTypeFile()
            + " --procedure demo-data/procedures/short-acceptance.toml"
            + " --serial SIM-1 --operator me --order none");
    out.println();
    out.println("Ctrl-C stops it.");
    out.flush();
  }

  private static String words(SimulatedBench.Port port) {
    return port.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  /** Until the program is killed, or the parent that started it is gone. */
  private void waitForTheEnd() throws InterruptedException {
    if (untilInputEnds) {
      new Keys(System.in).awaitEnd();
    } else {
      new CountDownLatch(1).await();
    }
  }
}

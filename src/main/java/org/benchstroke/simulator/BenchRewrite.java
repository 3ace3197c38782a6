package org.benchstroke.simulator;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.benchstroke.core.quantity.Numbers;

/**
 * A bench file's text with other addresses and another [simulation] table; a serial line that gets
 * an address of TCP loses its serial settings. All else stays as the person wrote it, comments too.
 * Stateless.
 */
final class BenchRewrite {
  /**
   * The shortest sample period that a busy computer keeps, ms of wall time: at 20 × real time a
   * stall of 40 ms would otherwise be a gap of eight samples.
   */
  private static final double SHORTEST_WALL_MILLIS = 12.5;

  private static final Pattern LINE_HEADER = Pattern.compile("\\s*\\[\\[\\s*line\\s*]].*");
  private static final Pattern LINE_RS485 =
      Pattern.compile("\\s*\\[\\s*line\\s*\\.\\s*rs485\\s*].*");

  /** What only a serial port has; an address in its place must not have them. */
  private static final Pattern SERIAL_KEY =
      Pattern.compile("\\s*(speed|data_bits|parity|stop_bits|flow_control|rs485)\\s*=.*");

  private static final Pattern HEADER = Pattern.compile("\\s*\\[.*");
  private static final Pattern SIMULATION = Pattern.compile("\\s*\\[\\s*simulation\\s*].*");
  private static final Pattern ADDRESS =
      Pattern.compile("(\\s*address\\s*=\\s*)(?:\"([^\"]*)\"|'([^']*)')(.*)");
  private static final Pattern TCP_ADDRESS = Pattern.compile("\\s*address\\s*=\\s*[\"']tcp://.*");
  private static final Pattern PERIOD =
      Pattern.compile("(\\s*sample_period_ms\\s*=\\s*)([0-9._]+)(.*)");

  private BenchRewrite() {}

  /**
   * Rewrites a bench file.
   *
   * @param text a bench file that reads without mistakes
   * @param addresses new addresses by the old ones, both as a bench file writes them; empty if they
   *     stay
   * @param shows what the simulated unit shows
   * @param samplePeriodMillis how often the position is to be read, ms; empty as it is written
   * @param timeScale bench seconds per wall second; a sample period that is too short for it is
   *     made longer
   * @param clock the file by which the time is shared, if it is
   */
  static String of(
      String text,
      Map<String, String> addresses,
      String shows,
      OptionalDouble samplePeriodMillis,
      double timeScale,
      Optional<Path> clock) {
    List<String> lines = new ArrayList<>();
    boolean headerSeen = false;
    boolean skipping = false;
    boolean lineTable = false;
    boolean toTcp = false;
    List<String> written = text.lines().toList();
    for (int i = 0; i < written.size(); i++) {
      String line = written.get(i);
      if (HEADER.matcher(line).matches()) {
        boolean begins = LINE_HEADER.matcher(line).matches();
        if (begins) {
          toTcp = becomesTcp(written.subList(i + 1, written.size()), addresses);
        }
        lineTable = begins && toTcp;
        boolean rs485 = toTcp && LINE_RS485.matcher(line).matches();
        skipping = rs485 || SIMULATION.matcher(line).matches();
        if (!headerSeen) {
          headerSeen = true;
          lines.addAll(table(shows, timeScale, clock));
        }
      }
      if (!skipping && !(lineTable && SERIAL_KEY.matcher(line).matches())) {
        lines.add(
            headerSeen ? address(line, addresses) : period(line, samplePeriodMillis, timeScale));
      }
    }
    return String.join("\n", lines) + "\n";
  }

  /** Whether the table that these lines begin with gets an address of TCP. */
  private static boolean becomesTcp(List<String> rest, Map<String, String> addresses) {
    return rest.stream()
        .takeWhile(line -> !HEADER.matcher(line).matches())
        .map(line -> address(line, addresses))
        .anyMatch(line -> TCP_ADDRESS.matcher(line).matches());
  }

  private static List<String> table(String shows, double timeScale, Optional<Path> clock) {
    List<String> table = new ArrayList<>();
    table.add("[simulation]");
    table.add("shows = \"" + escaped(shows) + "\"");
    table.add("time_scale = " + Numbers.plain(timeScale));
    clock.ifPresent(file -> table.add("clock = \"" + escaped(file.toString()) + "\""));
    table.add("");
    return table;
  }

  private static String address(String line, Map<String, String> addresses) {
    Matcher found = ADDRESS.matcher(line);
    if (!found.matches()) {
      return line;
    }
    String old = found.group(2) == null ? found.group(3) : found.group(2);
    String other =
        addresses.entrySet().stream()
            .filter(each -> each.getKey().equalsIgnoreCase(old.strip()))
            .map(Map.Entry::getValue)
            .findFirst()
            .orElse(old);
    return found.group(1) + '"' + other + '"' + found.group(4);
  }

  private static String period(String line, OptionalDouble wanted, double timeScale) {
    Matcher found = PERIOD.matcher(line);
    if (!found.matches()) {
      return line;
    }
    double written = Double.parseDouble(found.group(2).replace("_", ""));
    double kept = Math.max(wanted.orElse(written), SHORTEST_WALL_MILLIS * timeScale);
    return kept == written ? line : found.group(1) + Math.round(kept) + found.group(3);
  }

  /** A text as it stands between quotes. */
  static String escaped(String value) {
    return value.replace("\\", "\\\\").replace("\"", "\\\"").replace("\n", "\\n").replace("\r", "");
  }
}

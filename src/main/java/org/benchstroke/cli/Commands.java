package org.benchstroke.cli;

import java.util.LinkedHashMap;
import java.util.Map;
import picocli.AutoComplete;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/**
 * The commands by name, in the order of the help. A command's class, and all that it stands on, is
 * loaded when the command is made, and only what was asked for is made: of the others the help
 * needs a name and a line, which stand here. Stateless.
 */
final class Commands {
  static final String DEMO = "Runs a short acceptance on a simulated bench; needs no hardware.";
  static final String SERVE = "Opens the bench screen, pages for a browser on this computer.";
  static final String CHECK =
      "Lists every mistake in bench, unit type, procedure, simulation, shop, user and operators"
          + " files.";
  static final String NEW =
      "Writes a bench, unit type or procedure file to begin with, by a few questions.";
  static final String CONFIG = "Shows what need not be typed, and where each of it is stated.";
  static final String RUN = "Tests a unit, judges it, and writes its record and report.";
  static final String SETUP =
      "Guides you through setting a unit up before its test, and records it.";
  static final String PROBE = "Reads a whole bench live and says whether it answers soundly.";
  static final String DRIVE =
      "Sets a current by hand, with loop, position and switches read back live.";
  static final String SCAN = "Lists which Modbus unit ids of a line answer.";
  static final String FIND_MAP = "Works out how a Modbus value is to be read.";
  static final String SIMULATE = "Serves a simulated bench until Ctrl-C, or several at once.";
  static final String PRACTISE =
      "A simulated unit with something wrong, or nothing: run tests, then name the cause.";
  static final String PORTS = "Lists the serial ports of this machine.";
  static final String SCHEMA = "Lists the JSON Schemas, prints one, or writes it to a file.";
  static final String REPORT = "Writes the report of a record again.";
  static final String JUDGE = "Judges a record again, or a file that others recorded.";
  static final String VERIFY = "Tells whether records are byte for byte what was sealed.";
  static final String AMEND =
      "Corrects what was mistyped of a run: its unit's serial number, order, customer, operator,"
          + " tag and so on.";
  static final String KEY = "Shows the key by which this bench seals its records.";
  static final String OPERATOR =
      "Lists, adds and removes those who may sign in at the bench screen.";
  static final String ARCHIVE =
      "Makes and keeps the archive, a database of all runs that \"history\" asks.";
  static final String HISTORY = "Lists runs or jobs of the archive, the newest first.";
  static final String TREND =
      "Shows a measure over time, as control charts: individual values, moving ranges, EWMA.";
  static final String YIELD =
      "Tells how many jobs passed at their first whole run: as they were found.";
  static final String CAUSES =
      "Tells what was wrong with units as they were found, the most frequent first.";
  static final String COMPARE =
      "Compares two runs: what differs of them, and each measure of both.";
  static final String DUE = "Lists instruments whose calibration falls due soon, or was due.";
  static final String LOOK_BACK =
      "Judges again what was measured by an instrument that was found to be off.";
  static final String CAPABILITY =
      "Tells how much room the limits of a measure leave: Cp, Cpk, Pp, Ppk with 95 %% intervals.";
  static final String GAUGE =
      "Tells how well the bench and those who use it repeat a measure: gauge repeatability and"
          + " reproducibility, by analysis of variance.";
  static final String GAUGE_PLAN =
      "Plans a gauge study: who tests which unit when, in a random order.";
  static final String BENCH_CHECK =
      "Checks a bench by a reference of its own, day by day: warns beyond 2σ, stops beyond 3σ.";
  private static final String GENERATE_COMPLETION =
      "Prints a script that lets bash and zsh complete commands and options.";

  private static final Map<String, String> SAYS = says();

  private Commands() {}

  private static Map<String, String> says() {
    Map<String, String> says = new LinkedHashMap<>();
    says.put("demo", DEMO);
    says.put("serve", SERVE);
    says.put("check", CHECK);
    says.put("new", NEW);
    says.put("config", CONFIG);
    says.put("run", RUN);
    says.put("setup", SETUP);
    says.put("probe", PROBE);
    says.put("drive", DRIVE);
    says.put("scan", SCAN);
    says.put("find-map", FIND_MAP);
    says.put("simulate", SIMULATE);
    says.put("practise", PRACTISE);
    says.put("ports", PORTS);
    says.put("schema", SCHEMA);
    says.put("report", REPORT);
    says.put("judge", JUDGE);
    says.put("verify", VERIFY);
    says.put("amend", AMEND);
    says.put("key", KEY);
    says.put("operator", OPERATOR);
    says.put("archive", ARCHIVE);
    says.put("history", HISTORY);
    says.put("trend", TREND);
    says.put("yield", YIELD);
    says.put("causes", CAUSES);
    says.put("compare", COMPARE);
    says.put("due", DUE);
    says.put("look-back", LOOK_BACK);
    says.put("capability", CAPABILITY);
    says.put("gauge", GAUGE);
    says.put("gauge-plan", GAUGE_PLAN);
    says.put("bench-check", BENCH_CHECK);
    says.put("generate-completion", GENERATE_COMPLETION);
    return says;
  }

  /** Whether there is a command of this name. */
  static boolean has(String name) {
    return SAYS.containsKey(name);
  }

  /** Every command, made. */
  static void addAll(CommandLine line) {
    SAYS.keySet().forEach(name -> add(line, name));
  }

  /** The one command, made; the others are not there. */
  static void add(CommandLine line, String name) {
    line.addSubcommand(name, made(name));
    if (name.equals("generate-completion")) {
      line.getSubcommands().get(name).getCommandSpec().usageMessage().description(SAYS.get(name));
    }
  }

  /** What the help lists: each command's name and line, and no command. */
  static void list(CommandLine line) {
    for (Map.Entry<String, String> command : SAYS.entrySet()) {
      CommandSpec spec = CommandSpec.create();
      spec.usageMessage().description(command.getValue());
      line.addSubcommand(command.getKey(), spec);
    }
  }

  /** By a switch: a table of constructors would load every class. */
  private static Object made(String name) {
    return switch (name) {
      case "demo" -> new DemoCommand();
      case "serve" -> new ServeCommand();
      case "check" -> new CheckCommand();
      case "new" -> new NewCommand();
      case "config" -> new ConfigCommand();
      case "run" -> new RunCommand();
      case "setup" -> new SetUpCommand();
      case "probe" -> new ProbeCommand();
      case "drive" -> new DriveCommand();
      case "scan" -> new ScanCommand();
      case "find-map" -> new FindMapCommand();
      case "simulate" -> new SimulateCommand();
      case "practise" -> new PractiseCommand();
      case "ports" -> new PortsCommand();
      case "schema" -> new SchemaCommand();
      case "report" -> new ReportCommand();
      case "judge" -> new JudgeCommand();
      case "verify" -> new VerifyCommand();
      case "amend" -> new AmendCommand();
      case "key" -> new KeyCommand();
      case "operator" -> new OperatorCommand();
      case "archive" -> new ArchiveCommand();
      case "history" -> new HistoryCommand();
      case "trend" -> new TrendCommand();
      case "yield" -> new YieldCommand();
      case "causes" -> new CausesCommand();
      case "compare" -> new CompareCommand();
      case "due" -> new DueCommand();
      case "look-back" -> new LookBackCommand();
      case "capability" -> new CapabilityCommand();
      case "gauge" -> new GaugeCommand();
      case "gauge-plan" -> new GaugePlanCommand();
      case "bench-check" -> new BenchCheckCommand();
      case "generate-completion" -> new AutoComplete.GenerateCompletion();
      default -> throw new IllegalArgumentException(name);
    };
  }
}

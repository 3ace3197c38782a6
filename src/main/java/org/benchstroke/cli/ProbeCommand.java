package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.benchstroke.app.BenchLinks;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.Setting;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.commission.RoleState;
import org.benchstroke.commission.RoleVerdict;
import org.benchstroke.commission.Survey;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.papers.Json;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Looks at a bench. */
@Command(
    name = "probe",
    description = {
      Commands.PROBE,
      "Opens every instrument, asks who it is and reads all that can be read. Sources nothing and"
          + " switches nothing.",
      ""
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Exit codes: 0 every role answers soundly;",
      "            2 a mistake in a file, or the bench is in use; 3 a role does not.",
      "",
      "Example:",
      "  benchstroke probe --bench bench.toml --unit-type unit.toml"
    })
final class ProbeCommand implements Callable<Integer> {
  private static final double MOST_SECONDS = 86_400;

  @Option(
      names = "--bench",
      paramLabel = "FILE",
      description = "The bench file (default: what is stated).")
  private Optional<String> bench = Optional.empty();

  @Option(
      names = "--unit-type",
      paramLabel = "FILE",
      description =
          "The unit type file (default: what is stated); without one a position in mA is shown in"
              + " mA.")
  private Optional<String> unitType = Optional.empty();

  @Option(
      names = "--seconds",
      paramLabel = "N",
      defaultValue = "5",
      description = "How long to read (default: ${DEFAULT-VALUE} s).")
  private double seconds;

  @Option(names = "--json", description = "Prints states and verdicts as JSON, and nothing else.")
  private boolean json;

  @Mixin private CaptureFolder capture;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    if (!(seconds > 0.0 && seconds <= MOST_SECONDS)) {
      throw new WrongRequest(
          "--seconds: found " + Numbers.plain(seconds) + ", allowed is above 0 to 86400");
    }
    Defaults stated = ShopOption.found(spec);
    Path benchFile = NeededFile.of(spec, stated, Setting.BENCH, bench);
    Optional<Path> typeFile = stated.file(Setting.UNIT_TYPE, unitType);
    GivenFiles files = new GivenFiles();
    GivenFiles.Given<BenchFile> file = files.bench(benchFile);
    Optional<GivenFiles.Given<UnitType>> unit =
        typeFile.map(path -> files.read(path, UnitTypeReader::read));
    files.finish();
    BenchClock clock = Root.of(spec).clocks().apply(file.value());
    BenchLinks.Wanted wanted = BenchLinks.Wanted.of(file.value(), "a probe");
    try (BenchLinks links = capture.links(wanted, Shown.err(spec));
        Tty tty = Tty.watched();
        Survey survey =
            new Survey(file.value(), unit.map(GivenFiles.Given::value), links.opener(), clock)) {
      return probe(survey, file.value(), clock, tty);
    }
  }

  private int probe(Survey survey, BenchFile file, BenchClock clock, Tty tty)
      throws InterruptedException, IOException {
    Shown out = Shown.out(spec);
    if (!json) {
      out.println(title(file) + ": nothing is sourced, nothing is switched");
      out.flush();
    }
    survey.open();
    ProbeScreen screen = new ProbeScreen(out, Terminals.isThere(), clock, tty::width);
    survey.watch(
        seconds,
        new StopSwitch(),
        states -> {
          if (!json) {
            screen.shown(states);
          }
        });
    List<RoleVerdict> verdicts = survey.verdicts();
    boolean ok = verdicts.stream().allMatch(RoleVerdict::ok);
    if (json) {
      out.println(Json.line(told(file, survey, verdicts, ok)));
    } else {
      tell(out, verdicts, ok, tty.width());
    }
    out.flush();
    return ok ? ExitCode.PASSED : ExitCode.NOT_COMPLETED;
  }

  private static String title(BenchFile file) {
    return (file.simulation().isPresent() ? "SIMULATED bench " : "Bench ") + file.name();
  }

  private static void tell(Shown out, List<RoleVerdict> verdicts, boolean ok, int columns) {
    out.println();
    for (RoleVerdict verdict : verdicts) {
      out.println((verdict.ok() ? "  ok      " : "  NOT OK  ") + name(verdict));
      out.println(Wrapped.text("          " + verdict.words(), columns, 10));
    }
    out.println();
    out.println(ok ? "Every role answers soundly." : "Not every role answers soundly; see above.");
  }

  private static String name(RoleVerdict verdict) {
    return verdict.role().key() + ", " + verdict.instrument();
  }

  private static Map<String, Object> told(
      BenchFile file, Survey survey, List<RoleVerdict> verdicts, boolean ok) {
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("format", 1);
    told.put("bench", file.name());
    told.put("simulated", file.simulation().isPresent());
    told.put("ok", ok);
    List<Map<String, Object>> roles = new ArrayList<>();
    List<RoleState> states = survey.states();
    for (int i = 0; i < states.size(); i++) {
      roles.add(role(states.get(i), verdicts.get(i), survey));
    }
    told.put("roles", roles);
    return told;
  }

  private static Map<String, Object> role(RoleState state, RoleVerdict verdict, Survey survey) {
    Map<String, Object> role = new LinkedHashMap<>();
    role.put("instrument", state.instrument());
    role.put("role", state.role().key());
    Optional.ofNullable(survey.identities().get(state.instrument()))
        .ifPresent(identity -> role.put("identity", identity.found()));
    role.put("ok", verdict.ok());
    role.put("words", verdict.words());
    role.put("value", state.value());
    role.put("raw", state.raw());
    put(role, "percent", state.percent());
    put(role, "age_s", state.ageSeconds());
    put(role, "round_trip_ms", state.roundTripMillis());
    put(role, "longest_round_trip_ms", state.longestMillis());
    role.put("replies", state.replies());
    role.put("errors", state.errors());
    if (!state.lastError().isEmpty()) {
      role.put("last_error", state.lastError());
    }
    return role;
  }

  private static void put(Map<String, Object> role, String key, OptionalDouble value) {
    if (value.isPresent()) {
      role.put(key, value.getAsDouble());
    }
  }
}

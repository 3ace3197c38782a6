package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.concurrent.Callable;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.GaugePlan;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.papers.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Plans a study of a gauge. */
@Command(
    name = "gauge-plan",
    description = {
      Commands.GAUGE_PLAN,
      "Run the units in this order, with these serial numbers and operators; then gauge --plan finds"
          + " the runs and says whose turn it is."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Example:",
      "  benchstroke gauge-plan --units QT-1,QT-2,QT-3 --operators Ann,Ben \\",
      "      --repeats 3 --seed 7 study.toml"
    })
final class GaugePlanCommand implements Callable<Integer> {
  @Parameters(paramLabel = "FILE", description = "Where the plan goes.")
  private Path file;

  @Option(
      names = "--units",
      required = true,
      split = ",",
      paramLabel = "SERIAL",
      description = "Serial numbers of the units, with commas between; 2 to 100.")
  private List<String> units = List.of();

  @Option(
      names = "--operators",
      required = true,
      split = ",",
      paramLabel = "NAME",
      description = "Who tests them, with commas between; 1 to 100.")
  private List<String> operators = List.of();

  @Option(
      names = "--repeats",
      paramLabel = "N",
      defaultValue = "3",
      description = "How often each tests each unit, 2 to 100 (default: ${DEFAULT-VALUE}).")
  private int repeats;

  @Option(
      names = "--seed",
      required = true,
      paramLabel = "N",
      description = "A whole number; the same one gives the same order.")
  private Long seed;

  @Option(
      names = "--nested",
      description = "Deals the units out: each operator has units of their own.")
  private boolean nested;

  @Option(names = "--json", description = "Prints the turns as JSON.")
  private boolean json;

  @Mixin private ForceOption force;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest {
    List<String> serials = distinct("--units", units, GaugePlan.FEWEST);
    List<String> names = distinct("--operators", operators, 1);
    if (repeats < GaugePlan.FEWEST || repeats > GaugePlan.MOST) {
      throw new WrongRequest("--repeats: found " + repeats + ", allowed is 2 to 100");
    }
    if (nested && (serials.size() % names.size() != 0 || serials.size() < 2 * names.size())) {
      throw new WrongRequest(
          "--nested: "
              + serials.size()
              + " units can't be dealt out to "
              + names.size()
              + " operators; as many for each are wanted, at least 2");
    }
    OutputFiles.Place place = force.outputs().place("", file, OutputFiles.Kind.FILE_TO_EDIT);
    var now = SystemClock.realTime().utc();
    GaugePlan plan =
        nested
            ? GaugePlan.nested(now, serials, names, repeats, seed)
            : GaugePlan.crossed(now, serials, names, repeats, seed);
    place.write(plan.toml());
    Shown out = Shown.out(spec);
    if (json) {
      out.print(Json.page(plan.turns()));
    } else {
      tell(out, plan);
    }
    out.flush();
    return ExitCode.PASSED;
  }

  private void tell(Shown out, GaugePlan plan) {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < plan.turns().size(); i++) {
      GaugePlan.Turn turn = plan.turns().get(i);
      rows.add(List.of(String.valueOf(i + 1), turn.unit(), turn.operator()));
    }
    new TextTable(List.of(">turn", "unit", "operator"), rows).print(out);
    out.println("Plan:    " + file);
  }

  private static List<String> distinct(String option, List<String> given, int fewest)
      throws WrongRequest {
    List<String> all = given.stream().map(String::strip).toList();
    boolean blank = all.stream().anyMatch(String::isEmpty);
    if (blank
        || new HashSet<>(all).size() < all.size()
        || all.size() < fewest
        || all.size() > GaugePlan.MOST) {
      throw new WrongRequest(
          option + ": allowed are " + fewest + " to 100 different ones, with commas between");
    }
    return all;
  }
}

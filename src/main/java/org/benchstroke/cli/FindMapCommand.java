package org.benchstroke.cli;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.benchstroke.app.BenchLinks;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.commission.HandBench;
import org.benchstroke.commission.HandResult;
import org.benchstroke.commission.MapCandidate;
import org.benchstroke.commission.MapFindings;
import org.benchstroke.commission.MapInference;
import org.benchstroke.commission.MapProposal;
import org.benchstroke.commission.MapQuestion;
import org.benchstroke.commission.MapSurvey;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.modbus.ModbusSettings;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.unit.UnitType;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Works out a register map from known values. */
@Command(
    name = "find-map",
    description = {
      Commands.FIND_MAP,
      "Finds its type, word order and scale: drives the unit to three positions (or asks for"
          + " three values that you read on a display), reads the raw registers at and around the"
          + " address in the bench file, and proposes the map that explains them all. After a typed"
          + " yes it"
          + " writes a new bench file beside the old one, never over it.",
      "",
      "The unit moves, unless --typed is given: cautions first, the safe signal last, as in drive.",
      ""
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Exit codes: 0 the bench file is right, or a new one was written;",
      "            2 the request was wrong;",
      "            3 nothing was found, it was stopped, or the answer was not yes.",
      "",
      "Example:",
      "  benchstroke find-map --bench bench.toml --unit-type unit.toml --at 25,75,40"
    })
final class FindMapCommand implements Callable<Integer>, LeavesMore {
  private static final int MOST_POINTS = 6;
  private static final int MOST_OTHERS = 5;

  /** Two fit any line, and often more than one coding. */
  private static final int TYPED_POINTS = 3;

  @Mixin private HandOptions given;

  @Option(
      names = "--role",
      paramLabel = "ROLE",
      defaultValue = "position transmitter",
      description = "Whose value (default: ${DEFAULT-VALUE}); or loop meter, angle reference.")
  private String role;

  @Option(
      names = "--at",
      paramLabel = "P,P",
      split = ",",
      defaultValue = "25,75,40",
      description = "Positions to drive to, %% of travel (default: ${DEFAULT-VALUE}).")
  private List<Double> at;

  @Option(
      names = "--typed",
      description = "Asks for three values that you read on a display; moves nothing.")
  private boolean typed;

  @Mixin private CaptureFolder capture;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws Exception {
    Input in = Input.of(spec);
    HandOptions.Files files = given.read(spec);
    GivenFiles.Given<BenchFile> file = files.bench();
    GivenFiles.Given<UnitType> unit = files.unit();
    Role wanted = wanted(file.value());
    List<Position> positions = positions();
    if (!typed) {
      given.requireAllowed(in, file);
    }
    boolean asks = typed ? in.canAnswer() : !given.unattended();
    Shown out = Shown.out(spec);
    StopSwitch stop = new StopSwitch();
    Shown err = Shown.err(spec);
    BenchLinks.Wanted wantedLinks =
        BenchLinks.Wanted.of(file.value(), "a search for a register map");
    try (StopHook hook = StopHook.set(stop, out, err);
        BenchLinks links = capture.links(wantedLinks, err);
        HandWork work =
            asks ? HandWork.attended(in, out, stop, hook) : HandWork.unattended(in, out, stop)) {
      BenchClock clock = Root.of(spec).clocks().apply(file.value());
      Keys keys = work.keys();
      HandBench hands = work.bench(file.value(), unit.value(), links.opener(), clock);
      MapSurvey survey = new MapSurvey(hands, wanted);
      MapSurvey.Read read =
          typed
              ? survey.typed(
                  TYPED_POINTS,
                  (point, points, text) ->
                      ask(out, keys, stop, "Value " + point + " of " + points, text))
              : survey.driven(positions);
      tellEnd(work, read.end());
      boolean left = typed || read.end().clean();
      if (read.question().isEmpty() || !left) {
        return ExitCode.NOT_COMPLETED;
      }
      return propose(file, wanted, read.question().get(), keys, stop);
    }
  }

  private void tellEnd(HandWork work, HandResult end) {
    if (!typed) {
      work.tellEnd(end);
    } else if (end.how() != HandResult.How.DONE) {
      Shown.out(spec).println("Ended: " + end.reason());
    }
  }

  private Role wanted(BenchFile file) throws WrongRequest {
    Optional<Role> found = Role.ofKey(role.toLowerCase(Locale.ROOT));
    if (found.isEmpty()) {
      throw new WrongRequest(
          "--role: found \""
              + role
              + "\", allowed are position transmitter, loop meter and angle"
              + " reference");
    }
    Optional<String> hindrance = MapSurvey.hindrance(file, found.get());
    if (hindrance.isPresent()) {
      throw new WrongRequest("--role: " + hindrance.get());
    }
    return found.get();
  }

  private List<Position> positions() throws WrongRequest {
    var range = at.stream().mapToDouble(d -> d).summaryStatistics();
    boolean inside = at.stream().allMatch(p -> p >= 0.0 && p <= 100.0);
    boolean apart = range.getMax() - range.getMin() >= 10.0;
    if (!inside || !apart || at.size() < 2 || at.size() > MOST_POINTS) {
      throw new WrongRequest(
          "--at: allowed are 2 to 6 positions of 0 to 100 %, at least 10 % apart, as in 25,75,40");
    }
    return at.stream().map(Position::ofPercent).toList();
  }

  private static OptionalDouble ask(
      Shown out, Keys keys, StopSwitch stop, String which, String unit) {
    out.println();
    out.print("  " + which + ": bring it there, let it rest, type what you read, in " + unit);
    out.print(" (q ends): ");
    out.flush();
    while (!stop.isStopping()) {
      Optional<String> line = keys.poll();
      if (line.isPresent()) {
        String text = line.get().replaceFirst("\\s*(mA|%|deg|°)$", "");
        if (text.matches("-?[0-9]{1,6}(\\.[0-9]{1,9})?")) {
          return OptionalDouble.of(Double.parseDouble(text));
        }
        if (text.equals("q") || Keys.isEnd(text)) {
          return OptionalDouble.empty();
        }
        out.print("  A number such as 12.5, or q: ");
        out.flush();
      }
    }
    return OptionalDouble.empty();
  }

  private int propose(
      GivenFiles.Given<BenchFile> file,
      Role wanted,
      MapQuestion question,
      Keys keys,
      StopSwitch stop)
      throws WrongRequest {
    Shown out = Shown.out(spec);
    MapFindings findings = MapInference.infer(question);
    out.println();
    if (findings.best().isEmpty()) {
      out.println("Nothing that was read explains the known values. Registers that were read:");
      tellReadings(out, question);
      out.println(
          "Check that the unit really went there (probe, drive); check the address in the manual.");
      return ExitCode.NOT_COMPLETED;
    }
    MapCandidate best = findings.best().get();
    String instrument = file.value().playing(wanted).orElseThrow().name();
    tell(out, findings);
    if (best.sameAs(question.inFile()) && question.inFile().table() == tableInFile(file, wanted)) {
      out.println("The bench file already reads it this way: nothing to change.");
      return ExitCode.PASSED;
    }
    MapProposal proposal = new MapProposal(instrument, wanted, question, findings);
    out.println("Proposed for " + instrument + ":");
    out.println();
    out.println(proposal.toml().indent(2));
    return write(file, proposal, keys, stop);
  }

  private static Register.Table tableInFile(GivenFiles.Given<BenchFile> file, Role role) {
    return file.value()
        .playing(role)
        .orElseThrow()
        .talk(ModbusSettings.class)
        .orElseThrow()
        .registers()
        .get(role)
        .table();
  }

  private static void tellReadings(Shown out, MapQuestion question) {
    question
        .points()
        .forEach(
            point ->
                out.println(
                    "  known "
                        + Numbers.plain(point.value())
                        + " "
                        + question.unit()
                        + ": from address "
                        + question.firstAddress()
                        + " "
                        + point.readings().get(point.readings().size() - 1)));
  }

  private static void tell(Shown out, MapFindings findings) {
    MapCandidate best = findings.best().orElseThrow();
    out.println("Explains every known value: " + best.text());
    if (best.scaleKind() == MapCandidate.ScaleKind.POINTS_ONLY) {
      out.println(
          "  CAUTION: its scale is an unusual one; it only fits these points. Compare it with the"
              + " manual, and try more points (--at 25,50,75,40).");
    }
    findings
        .ties()
        .forEach(tie -> out.println("  Fits as well, these points can't decide: " + tie.text()));
    findings.others().stream()
        .limit(MOST_OTHERS)
        .forEach(other -> out.println("  Less likely: " + other.text()));
    if (!findings.ties().isEmpty()) {
      out.println("  The instrument's manual decides between them.");
    }
    out.println();
  }

  private int write(
      GivenFiles.Given<BenchFile> file, MapProposal proposal, Keys keys, StopSwitch stop)
      throws WrongRequest {
    Shown out = Shown.out(spec);
    Optional<String> whole = proposal.inFile(file.text());
    out.print(
        whole.isPresent()
            ? "Write a new bench file with it beside the old one?  Type yes:  "
            : "Write it into a file beside the bench file, to copy from?  Type yes:  ");
    out.flush();
    if (!saidYes(keys, stop)) {
      out.println();
      out.println("Nothing was written.");
      return ExitCode.NOT_COMPLETED;
    }
    String base = file.path().getFileName().toString().replaceFirst("\\.toml$", "");
    OutputFiles.Place place =
        new OutputFiles(false).free(file.path().resolveSibling(base + "-found-1.toml"));
    place.write(whole.orElseGet(proposal::toml));
    out.println();
    out.println("Written:  " + place.file());
    out.println("Compare it with the manual, then probe with it.");
    return ExitCode.PASSED;
  }

  private static boolean saidYes(Keys keys, StopSwitch stop) {
    keys.forget();
    while (!stop.isStopping()) {
      Optional<String> line = keys.poll();
      if (line.isPresent()) {
        return line.get().equalsIgnoreCase("yes");
      }
    }
    return false;
  }
}

package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.ResultTable;
import org.benchstroke.simulator.practice.FaultDraw;
import org.benchstroke.simulator.practice.MysteryUnit;
import org.benchstroke.simulator.practice.PracticeTest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** A mystery unit: run what tests you like, then name what is wrong with it. */
@Command(
    name = "practise",
    description = {
      Commands.PRACTISE,
      "Everything is simulated, and no test takes longer than a moment; what it would take on a"
          + " bench counts against the score. Type a number, or the letter in front of the words."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false,
    footer = {
      "",
      "Exit codes: 0 the cause was named, 1 it was not, 2 the request was wrong.",
      "Example, a unit that everybody in the class gets:",
      "  benchstroke practise --unit 7"
    })
final class PractiseCommand implements Callable<Integer> {
  @Option(
      names = "--unit",
      paramLabel = "N",
      description = "Which unit; the same number is always the same unit (default: another one).")
  private Long number;

  @Mixin private RecordsOption records;

  @Spec private CommandSpec spec;

  private Shown out;
  private Keys keys;
  private int columns;

  @Override
  public Integer call() throws FileMistakes, WrongRequest {
    out = Shown.out(spec);
    keys = Keys.lines(Input.of(spec), out);
    try (Tty tty = Tty.watched()) {
      columns = tty.knownWidth();
    }
    Path folder = records.apart().resolve("demo");
    DemoCommand.unpack(folder, out);
    long chosen = number == null ? another() : number;
    MysteryUnit unit = MysteryUnit.of(folder.resolve("demo-data"), chosen);
    out.println("Unit " + chosen + ": a quarter-turn modulating actuator, 15 s. SIMULATED.");
    out.println("It came back to the shop with no more than: \"does not do what it should\".");
    out.println("All instruments are fitted: source, loop meter, switches, angle, supply meter.");
    Optional<Cause> named = Optional.empty();
    while (named.isEmpty()) {
      offer();
      Optional<String> answer = answer();
      if (answer.isEmpty()) {
        out.println("You named no cause. It was: " + unit.hidden().title() + ".");
        out.flush();
        return 1;
      }
      named = act(unit, answer.get());
    }
    return tell(unit, named.get(), folder, chosen);
  }

  /** Another number each time: the clock's. */
  private static long another() {
    return Math.floorMod(SystemClock.realTime().utc().toEpochMilli(), 10_000L);
  }

  private void offer() {
    out.println();
    PracticeTest[] tests = PracticeTest.values();
    for (int i = 0; i < tests.length; i++) {
      out.println(String.format(Locale.ROOT, "  %2d  %s", i + 1, tests[i].title()));
    }
    out.println("   n  name the cause");
    out.print("Which test? ");
    out.flush();
  }

  private Optional<Cause> act(MysteryUnit unit, String answer) {
    if (answer.equals("n")) {
      return name();
    }
    List<PracticeTest> tests = List.of(PracticeTest.values());
    Optional<Integer> which = number(answer, tests.size());
    if (which.isEmpty()) {
      out.println("\"" + answer + "\": type a number from 1 to " + tests.size() + ", or n.");
      return Optional.empty();
    }
    PracticeTest test = tests.get(which.get() - 1);
    out.println();
    out.println("— " + test.title() + " —");
    out.print(ResultTable.text(unit.run(test), columns));
    out.println("A limit that this test does not measure has no result here.");
    out.println("Bench time so far: " + minutes(unit) + " min");
    return Optional.empty();
  }

  private static String minutes(MysteryUnit unit) {
    return Numbers.fixed(unit.benchSeconds() / 60.0, 1);
  }

  private Optional<Cause> name() {
    List<Cause> causes = FaultDraw.causes();
    for (int i = 0; i < causes.size(); i++) {
      out.println(String.format(Locale.ROOT, "  %2d  %s", i + 1, causes.get(i).title()));
    }
    out.print("Which cause? ");
    out.flush();
    Optional<Integer> which = answer().flatMap(a -> number(a, causes.size()));
    if (which.isEmpty()) {
      out.println("Type a number from 1 to " + causes.size() + ".");
    }
    return which.map(n -> causes.get(n - 1));
  }

  private int tell(MysteryUnit unit, Cause named, Path folder, long chosen) throws WrongRequest {
    MysteryUnit.Score score = unit.score(named);
    String degree = unit.degree().isEmpty() ? "" : ", " + unit.degree();
    out.println();
    out.println((score.right() ? "Right: " : "It was: ") + unit.hidden().title() + degree + ".");
    out.println("Score: " + score.points() + " of 100 (" + score.why() + ").");
    out.println("Bench time: " + minutes(unit) + " min.");
    out.println();
    if (!score.right()) {
      out.println("You said: " + named.title() + ". How to tell: " + named.apart() + ".");
    }
    out.println("How to tell: " + unit.hidden().apart() + ".");
    out.println("What the procedure \"Fault finding\" shows:");
    unit.explained().lines().forEach(line -> out.println("  " + line));
    Path file = folder.resolve("simulators/unit-" + chosen + ".toml");
    OutputFiles.Place place = new OutputFiles(false).free(file);
    place.write(unit.file("../demo-data/unit-types/quarter-turn-15s.toml"));
    out.println("The unit as a simulation file: " + place.file());
    out.flush();
    return score.right() ? 0 : 1;
  }

  /** A line that was typed; empty at the end of input, or if it is to end. */
  private Optional<String> answer() {
    Optional<String> line = keys.poll();
    while (line.isEmpty()) {
      line = keys.poll();
    }
    return line.filter(l -> !Keys.isEnd(l) && !l.equals("q"));
  }

  private static Optional<Integer> number(String text, int most) {
    return text.matches("[0-9]{1,3}")
        ? Optional.of(Integer.parseInt(text)).filter(n -> n >= 1 && n <= most)
        : Optional.empty();
  }
}

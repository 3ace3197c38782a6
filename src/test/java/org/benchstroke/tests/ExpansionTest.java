package org.benchstroke.tests;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.procedure.Action;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.PlannedTest;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What each procedure of the demo data makes the demo unit do, action by action, beside a text that
 * was read by a person. A new procedure needs a text of its own.
 */
class ExpansionTest {
  private static final Path PROCEDURES = Path.of("demo-data/procedures");
  private static final Path EXPANDED = Path.of("src/test/resources/expansion");

  static List<Path> procedures() throws Exception {
    try (Stream<Path> files = Files.list(PROCEDURES)) {
      return files.sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("procedures")
  void aProcedureExpandsAsItsTextSays(Path file) throws Exception {
    UnitType unit = UnitTypeReader.read(Path.of("demo-data/unit-types/quarter-turn-15s.toml"));
    String expanded =
        Expansion.of(ProcedureReader.read(file), unit, 0.1).tests().stream()
            .map(ExpansionTest::text)
            .collect(Collectors.joining());
    String name = file.getFileName().toString().replace(".toml", ".txt");
    assertThat(expanded).isEqualTo(Files.readString(EXPANDED.resolve(name)));
  }

  private static String text(PlannedTest test) {
    String actions =
        test.actions().stream()
            .map(action -> "  " + text(action) + ", " + seconds(action.seconds()) + "\n")
            .collect(Collectors.joining());
    return test.name() + ", " + seconds(test.seconds()) + "\n" + actions;
  }

  private static String text(Action action) {
    if (action instanceof Action.Approach a) {
      OptionalDouble from = a.from();
      String start = from.isPresent() ? Numbers.plain(from.getAsDouble()) + " %" : "anywhere";
      String cycle = a.cycle() > 0 ? ", cycle " + a.cycle() : "";
      return a.aim().words()
          + ": "
          + start
          + " to "
          + a.to()
          + cycle
          + (a.clean() ? ", one way" : "");
    }
    if (action instanceof Action.Lose l) {
      return l.aim().words() + ": no rest before " + seconds(l.earliestSeconds());
    }
    if (action instanceof Action.Staircase s) {
      return s.aim().words()
          + ": "
          + s.from()
          + " to "
          + s.at()
          + ", cycle "
          + s.cycle()
          + ", then "
          + (s.sign() > 0 ? "up" : "down")
          + " by "
          + Numbers.plain(s.coarsePercent())
          + " % and to "
          + Numbers.plain(s.finestPercent())
          + " %, no more than "
          + Numbers.plain(s.mostPercent())
          + " %";
    }
    if (action instanceof Action.Hold h) {
      return h.aim().words();
    }
    if (action instanceof Action.Ramp r) {
      return r.aim().words() + ": " + r.from() + " to " + r.to();
    }
    if (action instanceof Action.Note n) {
      return "note " + n.name();
    }
    Action.Cut cut = (Action.Cut) action;
    return cut.aim().words() + " at " + cut.at() + ": away " + seconds(cut.awaySeconds());
  }

  private static String seconds(double seconds) {
    return Numbers.fixed(seconds, 2) + " s";
  }
}

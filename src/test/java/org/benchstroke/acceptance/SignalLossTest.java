package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.junit.jupiter.api.Test;

/** Every way of losing the signal, and what the unit does when it returns. */
class SignalLossTest {
  private static final String TESTS =
      """
      [[test]]
      test = "exercise"
      strokes = 1

      [[test]]
      test = "signal loss"
      at_pct = 50
      ways = ["low", "lost", "zero", "high", "open loop"]
      """;

  private static Map<String, AsOrdered> orders(String unit, UnaryOperator<String> unitType) {
    JudgedRun run = VirtualBench.with(unit).tests(TESTS).unitType(unitType).judge();
    return run.orders().stream()
        .filter(o -> o.isOf(AsOrdered.Subject.SIGNAL_LOSS))
        .collect(Collectors.toMap(o -> o.which(), o -> o));
  }

  @Test
  void aSoundUnitClosesOnEachAndComesBack() {
    Map<String, AsOrdered> orders = orders("healthy-b", t -> t);
    assertThat(orders).hasSize(6);
    assertThat(orders.values())
        .allSatisfy(o -> assertThat(o.word()).as(o.found()).isEqualTo(Word.PASS));
    assertThat(orders.get("high").found()).contains("from 50.").contains("there after");
  }

  @Test
  void oneThatStaysFailsOnEachThatIsALoss() {
    Map<String, AsOrdered> orders = orders("wrong-fail-action", t -> t);
    for (String way : new String[] {"lost", "zero", "high", "open loop"}) {
      assertThat(orders.get(way).word()).as(way).isEqualTo(Word.FAIL);
    }
    assertThat(orders.get("low").word()).isEqualTo(Word.PASS);
  }

  @Test
  void whatWasNotOrderedHasNoResult() {
    Map<String, AsOrdered> orders = orders("healthy-b", t -> t.replaceAll("high_mA.*", ""));
    assertThat(orders.get("high").word()).isEqualTo(Word.NO_RESULT);
    assertThat(orders.get("high").found()).contains("states no high_mA");
  }
}

package org.benchstroke.tests.travel;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TravelErrorTest {
  private static final List<Position> POINTS =
      List.of(Position.ofPercent(0), Position.ofPercent(50), Position.ofPercent(100));

  @ParameterizedTest
  @CsvSource({
    "0, true, 50 100 50 0",
    "0, false, 50 100 50 0",
    "50, true, 100 50 0 50",
    "50, false, 0 50 100 50",
    "100, true, 50 0 50 100"
  })
  void aCycleBeginsAndEndsAtItsStart(double start, boolean up, String places) {
    List<TravelError.Stop> cycle =
        new TravelError(POINTS, 1, Position.ofPercent(start), up).cycle();
    assertThat(cycle.stream().map(s -> Numbers.plain(s.to().percent())))
        .containsExactly(places.split(" ", -1));
    assertThat(cycle.get(0).from().percent()).isEqualTo(start);
    for (int i = 1; i < cycle.size(); i++) {
      assertThat(cycle.get(i).from()).isEqualTo(cycle.get(i - 1).to());
    }
  }

  @Test
  void withoutAStartItBeginsAtTheLowest() {
    assertThat(new TravelError(POINTS, 2).cycle().get(0).from().percent()).isZero();
  }
}

package org.benchstroke.app.stations;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The last minute of samples, as those see it who come often, seldom and late. */
class TrailTest {
  private final Trail trail = new Trail();

  private void second(int second) {
    trail.add(new Point(second, 50.0, 49.0 + second));
  }

  @Test
  void whoAsksOftenGetsWhatIsNew() {
    second(1);
    Trail.Piece first = trail.since(0);
    assertThat(first.points()).hasSize(1);
    second(2);
    second(3);
    Trail.Piece next = trail.since(first.end());
    assertThat(next.whole()).isFalse();
    assertThat(next.points()).extracting(Point::seconds).containsExactly(2.0, 3.0);
    assertThat(trail.since(next.end()).points()).isEmpty();
  }

  @Test
  void whoFellBehindBeginsAnewWithTheLastMinute() {
    second(1);
    long has = trail.since(0).end();
    for (int s = 2; s <= 200; s++) {
      second(s);
    }
    Trail.Piece piece = trail.since(has);
    assertThat(piece.whole()).isTrue();
    assertThat(piece.points()).hasSize(61);
    assertThat(piece.points().get(0).seconds()).isEqualTo(140.0);
  }

  @Test
  void anotherRunBeginsWithNothing() {
    second(100);
    long has = trail.since(0).end();
    trail.clear();
    assertThat(trail.since(has).whole()).isTrue();
    assertThat(trail.since(has).points()).isEmpty();
    second(1);
    assertThat(trail.since(has).points()).hasSize(1);
  }
}

package org.benchstroke.web.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;

class ThrottleTest {
  private static final List<String> ANN = List.of("ann");

  private final HandClock clock = new HandClock();
  private final Throttle throttle = new Throttle(clock, 100);

  private double waitSeconds(List<String> keys) {
    return throttle.begin(keys) / 1e9;
  }

  @Test
  void threeAttemptsAreFreeThenTheWaitDoubles() {
    for (int i = 0; i < 3; i++) {
      assertThat(waitSeconds(ANN)).isZero();
    }
    List<Double> waits = new ArrayList<>();
    for (int i = 0; i < 11; i++) {
      double wait = waitSeconds(ANN);
      waits.add(wait);
      clock.forward(Duration.ofNanos((long) (wait * 1e9)));
      assertThat(waitSeconds(ANN)).isZero();
    }
    assertThat(waits)
        .containsExactly(1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 128.0, 256.0, 300.0, 300.0);
  }

  @Test
  void whatIsRefusedIsNotCounted() {
    for (int i = 0; i < 50; i++) {
      throttle.begin(ANN);
    }
    assertThat(waitSeconds(ANN)).isEqualTo(1.0);
  }

  @Test
  void aRightOneClearsTheCountAndAnHourForgetsIt() {
    for (int i = 0; i < 3; i++) {
      throttle.begin(ANN);
    }
    throttle.right(ANN);
    assertThat(waitSeconds(ANN)).isZero();
    throttle.begin(ANN);
    throttle.begin(ANN);
    assertThat(waitSeconds(ANN)).isEqualTo(1.0);
    clock.forward(Duration.ofMinutes(61));
    assertThat(waitSeconds(ANN)).isZero();
    assertThat(waitSeconds(ANN)).isZero();
  }

  @Test
  void aKeyThatHasToWaitHoldsTheOthersUpAndDoesNotCountThem() {
    for (int i = 0; i < 3; i++) {
      throttle.begin(ANN);
    }
    for (int i = 0; i < 10; i++) {
      assertThat(waitSeconds(List.of("ben", "ann"))).isEqualTo(1.0);
    }
    assertThat(waitSeconds(List.of("ben"))).isZero();
  }

  @Test
  void itKeepsNoMoreThanItMay() {
    for (int i = 0; i < 10_000; i++) {
      throttle.begin(List.of("address " + i));
    }
    assertThat(throttle.size()).isEqualTo(100);
  }

  @Test
  void manyAtOnceDoNotSlipThrough() throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(8);
    try {
      Callable<Long> attempt = () -> throttle.begin(ANN);
      int free = 0;
      for (Future<Long> each : pool.invokeAll(java.util.Collections.nCopies(200, attempt))) {
        free += each.get() == 0 ? 1 : 0;
      }
      assertThat(free).isEqualTo(3);
    } finally {
      pool.shutdownNow();
    }
  }
}

package org.benchstroke.core.clock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A bench at 20 × real time, by a wall that a test moves: no time is waited for. What must hold is
 * what a real bench gives: an exchange and a delay of the computer take their own time.
 */
class SharedClockTest {
  private static final long MILLI = 1_000_000L;
  private static final double SCALE = 20.0;

  /** Every sleep ends so much too late. */
  private long lateNanos;

  private long wallNanos = 7_777_777_777L;
  private final List<Double> slowed = new ArrayList<>();
  private final SharedClock.Wall wall =
      new SharedClock.Wall(() -> wallNanos, nanos -> wallNanos += nanos + lateNanos);
  private final ByteBuffer shared = ByteBuffer.allocateDirect(64);
  private final SharedClock served = SharedClock.serve(shared, wall, SCALE, slowed::add);

  private SharedClock joined() {
    return SharedClock.join(shared, wall).orElseThrow();
  }

  private double millisIn(BenchClock clock, Runnable work) {
    long before = clock.nanos();
    work.run();
    return (double) (clock.nanos() - before) / MILLI;
  }

  @Test
  void runsAtItsScaleWhileNobodyWorksWithIt() {
    assertThat(millisIn(served, () -> wallNanos += 50 * MILLI)).isEqualTo(1000.0, within(1e-5));
    assertThat(served.scale()).isEqualTo(SCALE);
  }

  @Test
  void whatIsWaitedForComesAtTheScaleAndAnExchangeTakesItsOwnTime() throws Exception {
    SharedClock run = joined();
    long wallBefore = wallNanos;
    long due = run.nanos() + 250 * MILLI;
    run.waitUntil(due);
    assertThat((double) (wallNanos - wallBefore) / MILLI).isEqualTo(12.5, within(1e-5));
    assertThat(run.nanos() - due).isBetween(0L, 10L);
    assertThat(millisIn(run, () -> wallNanos += 3 * MILLI)).isEqualTo(3.0, within(1e-5));
    assertThat(served.nanos()).isEqualTo(run.nanos());
    assertThat(run.scale()).isEqualTo(1.0);
    assertThat(run.pace()).isEqualTo(SCALE);
  }

  /** Without this clock the same 40 ms are 800 ms of the bench's: a gap of three samples. */
  @Test
  void aComputerThatIsHeldUpDelaysByThatAndNoMore() throws Exception {
    SharedClock run = joined();
    lateNanos = 40 * MILLI;
    long due = run.nanos() + 250 * MILLI;
    run.waitUntil(due);
    assertThat((double) (run.nanos() - due) / MILLI).isEqualTo(40.0, within(1e-5));
    assertThat(served.nanos()).isEqualTo(run.nanos());
    lateNanos = 0;
    long next = run.nanos() + 250 * MILLI;
    long wallBefore = wallNanos;
    run.waitUntil(next);
    assertThat((double) (wallNanos - wallBefore) / MILLI)
        .as("at its scale again")
        .isEqualTo(12.5, within(1e-5));
  }

  /** Both see one time that never goes back, however they are held up. */
  @Test
  void bothSeeOneTimeWhateverHappens() throws Exception {
    SharedClock run = joined();
    Random random = new Random(36);
    long before = served.nanos();
    for (int i = 0; i < 20_000; i++) {
      lateNanos = random.nextInt(4) == 0 ? random.nextLong(80 * MILLI) : 0;
      wallNanos += random.nextLong(2 * MILLI);
      run.waitUntil(run.nanos() + random.nextLong(-100, 400) * MILLI);
      long now = served.nanos();
      assertThat(now).as("step %d", i).isGreaterThanOrEqualTo(before).isEqualTo(run.nanos());
      before = now;
    }
  }

  @Test
  void aWireIsNoFasterThanTheWall() throws Exception {
    SharedClock run = joined();
    long wallBefore = wallNanos;
    run.waitExactlyUntil(run.nanos() + 4 * MILLI);
    run.waitInWall(6 * MILLI);
    assertThat((double) (wallNanos - wallBefore) / MILLI).isEqualTo(10.0, within(1e-5));
    assertThat(run.wallNanos()).isEqualTo(wallNanos);
  }

  /** A late reply that is part of the simulation comes within the time-out of the link. */
  @Test
  void whoServesWaitsAtTheWallsPaceWhileALinkIsWaitedOn() throws Exception {
    joined();
    long wallBefore = wallNanos;
    served.waitUntil(served.nanos() + 300 * MILLI);
    assertThat((double) (wallNanos - wallBefore) / MILLI).isEqualTo(300.0, within(0.001));
  }

  @Test
  void aRunThatIsGoneHoldsNothingUp() throws Exception {
    joined().waitUntil(served.nanos() + 250 * MILLI);
    served.waitUntil(served.nanos() + SharedClock.LEASE_NANOS + 1000 * MILLI);
    assertThat(millisIn(served, () -> wallNanos += 50 * MILLI)).isEqualTo(1000.0, within(1e-5));
  }

  @Test
  void aRunThatStoodStillForLongHoldsItAgain() throws Exception {
    SharedClock run = joined();
    run.waitUntil(run.nanos() + 250 * MILLI);
    served.waitUntil(served.nanos() + SharedClock.LEASE_NANOS + 1000 * MILLI);
    run.nanos();
    assertThat(millisIn(run, () -> wallNanos += 50 * MILLI)).isEqualTo(50.0, within(1e-5));
    assertThat(served.nanos()).isEqualTo(run.nanos());
  }

  /** 12.5 ms of waiting, 20 ms late, 2.5 ms of exchanges: 272.5 ms of the bench in 35 ms. */
  @Test
  void slownessIsToldOnce() throws Exception {
    SharedClock run = joined();
    lateNanos = 20 * MILLI;
    // Who serves does not sleep here, but looks: its wait is over after each slice.
    for (int i = 0; i < 400; i++) {
      run.waitUntil(run.nanos() + 250 * MILLI);
      wallNanos += 5 * MILLI / 2;
      long late = lateNanos;
      lateNanos = 0;
      served.waitUntil(served.nanos() + 1);
      lateNanos = late;
    }
    assertThat(slowed).hasSize(1);
    assertThat(slowed.get(0)).isEqualTo(272.5 / 35.0, within(0.3));
  }

  @Test
  void anIdleComputerIsNotCalledBusy() throws Exception {
    SharedClock run = joined();
    lateNanos = 100_000L;
    for (int i = 0; i < 1000; i++) {
      run.waitUntil(run.nanos() + 250 * MILLI);
      wallNanos += 40 * MILLI;
      served.waitUntil(served.nanos() + 1);
    }
    assertThat(slowed).as("a slow line alone is no busy computer").isEmpty();
  }

  @Test
  void anInterruptedWaitIsOver() throws Exception {
    SharedClock run = joined();
    Thread.currentThread().interrupt();
    assertThatThrownBy(() -> run.waitUntil(run.nanos() + 250 * MILLI))
        .isInstanceOf(InterruptedException.class);
    assertThat(millisIn(run, () -> wallNanos += 3 * MILLI)).isEqualTo(3.0, within(1e-5));
  }

  @Test
  void aBenchThatIsNoMoreServedIsNotJoined() {
    wallNanos += 3_600_000 * MILLI;
    assertThat(SharedClock.join(shared, wall)).isEmpty();
    wallNanos -= 2 * 3_600_000 * MILLI;
    assertThat(SharedClock.join(shared, wall)).as("another machine's wall").isEmpty();
  }

  @Test
  void aFileThatIsNoClockIsLeftAlone(@TempDir Path folder) throws Exception {
    Path other = Files.writeString(folder.resolve("other"), "x".repeat(64));
    assertThat(SharedClock.join(other)).isEmpty();
    assertThat(other).hasContent("x".repeat(64));
    assertThat(SharedClock.join(folder.resolve("none"))).isEmpty();
    assertThat(SharedClock.join(folder)).isEmpty();
  }

  @Test
  void twoProcessesShareItByAFile(@TempDir Path folder) throws Exception {
    Path file = Files.createFile(folder.resolve("bench.clock"));
    SharedClock here = SharedClock.serve(file, 1000.0, slowed::add);
    SharedClock there = SharedClock.join(file).orElseThrow();
    long due = here.nanos() + 10_000 * MILLI;
    there.waitUntil(due);
    assertThat(here.nanos()).isGreaterThanOrEqualTo(due);
  }

  @Test
  void aScaleOfTheWallIsNotShared() {
    assertThatThrownBy(() -> SharedClock.serve(shared, wall, 1.0, slowed::add))
        .hasMessageContaining("above 1");
  }
}

package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.record.Event;
import org.benchstroke.simulator.Simulation;
import org.benchstroke.transport.PtyPair;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real {@code run} command over a serial line whose adapter is unplugged in the middle of a
 * test: what happens when is taken from the record itself, as it grows.
 */
@Timeout(300)
class UnpluggedTest {
  private static final double SCALE = 4;
  private static final String FIRST_POINT = "travel 20 up";
  private static final String NOT_CONFIRMED = "\"confirmed\":false";

  private static final String BRIEF =
      """
      [[test]]
      test = "travel error"
      points_pct = [0, 20, 40]
      cycles = 1
      """;

  @TempDir Path folder;

  @Test
  void pluggedInAgainTheTestIsBegunAgain() throws Exception {
    ShortRun end = run(Hand.PULLS_AND_PLUGS_IN, 60);
    assertThat(end.code()).as(end.said()).isZero();
    assertThat(end.faults()).contains("port gone");
    assertThat(end.outcomes()).startsWith("void").endsWith("complete");
    List<Event.MadeSafe> safe = end.madeSafe();
    assertThat(safe).anyMatch(s -> !s.confirmed());
    assertThat(safe.get(safe.size() - 1).confirmed()).isTrue();
  }

  @Test
  void leftUnpluggedTheRunEndsAndSaysWhatItCouldNotConfirm() throws Exception {
    ShortRun end = run(Hand.PULLS, 3);
    assertThat(end.code()).as(end.said()).isEqualTo(3);
    assertThat(end.said()).contains("commanded, but not confirmed").contains("not back within");
    assertThat(end.faults()).contains("port gone");
    assertThat(end.record().flaws()).isEmpty();
    assertThat(end.record().closed().orElseThrow().how()).isEqualTo("fault");
    assertThat(end.outcomes()).containsOnly("void");
  }

  /** The port is there, but nothing goes through: opened anew it works again. */
  @Test
  void aHungAdapterThatIsPluggedAnewIsFoundAgain() throws Exception {
    ShortRun end = run(Hand.HANGS, 60);
    assertThat(end.code()).as(end.said()).isZero();
    assertThat(end.faults()).contains("no reply");
    assertThat(end.outcomes()).startsWith("void").endsWith("complete");
    List<Event.MadeSafe> safe = end.madeSafe();
    assertThat(safe).anyMatch(s -> !s.confirmed());
    assertThat(safe.get(safe.size() - 1).confirmed()).isTrue();
  }

  /** What a hand does to the cable in the middle of the test. */
  private enum Hand {
    PULLS_AND_PLUGS_IN,
    PULLS,
    HANGS
  }

  private ShortRun run(Hand does, int recoverySeconds) throws Exception {
    Simulation unit = VirtualBench.simulation("healthy-b");
    Path records = Files.createDirectory(folder.resolve("records"));
    String limits =
        "travel_error_pct = 1.0\n[practice]\nrecovery_s = "
            + recoverySeconds
            // A busy machine is not what is looked at here.
            + "\ngap_periods = 20\nattempts = 10\n";
    return SerialBench.serve(
        unit,
        SCALE,
        folder,
        (bench, cable) -> {
          CompletableFuture<Void> hand = hand(cable, records, does);
          ShortRun end = ShortRun.of(bench, BRIEF, limits, folder);
          hand.get(10, TimeUnit.SECONDS);
          return end;
        });
  }

  /** Pulls the cable in the middle of the test; plugs it in once the run has noticed. */
  private static CompletableFuture<Void> hand(PtyPair cable, Path records, Hand does)
      throws IOException {
    RecordTail tail = new RecordTail(records);
    return CompletableFuture.runAsync(
        () -> {
          try (tail) {
            tail.await(FIRST_POINT);
            if (does == Hand.HANGS) {
              cable.hang();
              tail.await(NOT_CONFIRMED);
            }
            cable.pull();
            tail.await(NOT_CONFIRMED);
            if (does != Hand.PULLS) {
              cable.plugIn();
            }
          }
        });
  }
}

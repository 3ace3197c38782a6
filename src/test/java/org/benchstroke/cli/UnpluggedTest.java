package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.core.clock.LeapingClock;
import org.benchstroke.io.transport.PtyPair;
import org.benchstroke.record.Event;
import org.benchstroke.simulator.Simulation;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The real {@code run} command over a serial line whose adapter is unplugged in the middle of a
 * test: what happens when is taken from the record itself, as it grows.
 */
@Timeout(300)
class UnpluggedTest {
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
    String limits =
        "travel_error_pct = 1.0\n"
            + ShortRun.VERY_PATIENT
            + "recovery_s = "
            + recoverySeconds
            + "\n";
    Cable cable = new Cable(does);
    LeapingClock clock = new LeapingClock(cable::seenTo);
    return SerialBench.serve(
        unit,
        clock,
        folder,
        (bench, plugged) -> {
          cable.pair = Optional.of(plugged);
          ShortRun end = ShortRun.of(clock, bench, BRIEF, limits, folder);
          assertThat(cable.left).isEmpty();
          return end;
        });
  }

  /** The cable, and what is still to be done to it, each once the record says that it is time. */
  private final class Cable {
    private final Deque<Map.Entry<String, Consumer<PtyPair>>> left = new ArrayDeque<>();
    private Optional<PtyPair> pair = Optional.empty();

    Cable(Hand does) {
      if (does == Hand.HANGS) {
        left.add(Map.entry(FIRST_POINT, PtyPair::hang));
        left.add(Map.entry(NOT_CONFIRMED, PtyPair::pull));
      } else {
        left.add(Map.entry(FIRST_POINT, PtyPair::pull));
      }
      if (does != Hand.PULLS) {
        left.add(Map.entry(NOT_CONFIRMED, PtyPair::plugIn));
      }
    }

    /** By the thread of the run, before it waits. */
    void seenTo() {
      if (!left.isEmpty() && recorded(left.getFirst().getKey())) {
        left.removeFirst().getValue().accept(pair.orElseThrow());
      }
    }
  }

  private boolean recorded(String words) {
    Path records = folder.resolve("records");
    try {
      return Files.exists(records) && Files.readString(ShortRun.recordIn(records)).contains(words);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

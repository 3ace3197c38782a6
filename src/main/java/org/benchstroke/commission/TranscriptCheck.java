package org.benchstroke.commission;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.InstrumentFile;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.Mistake;
import org.benchstroke.io.transport.Transcript;
import org.benchstroke.run.StopSwitch;

/**
 * Whether the description of an instrument fits what such an instrument said: a transcript of a
 * probe is replayed, byte by byte, in virtual time. Stateless.
 */
public final class TranscriptCheck {
  private static final int MOST_BYTES = 5_000_000;

  private TranscriptCheck() {}

  /**
   * Replays it: connects, identifies, and reads every role again and again until all has come to
   * pass. It may end in the middle of a round.
   *
   * @return what was read, a line for each role
   * @throws FileMistakes where the driver does not do what is written, or reads nothing sound
   */
  public static List<String> of(InstrumentFile described, Path file) throws FileMistakes {
    Transcript transcript = read(file);
    VirtualClock clock = new VirtualClock(Instant.EPOCH);
    List<RoleState> states = new ArrayList<>();
    try (Survey survey = new Survey(described.bench(), Optional.empty(), transcript, clock)) {
      survey.open();
      while (!transcript.spent()) {
        survey.watch(
            0.0,
            new StopSwitch(),
            now -> {
              states.clear();
              states.addAll(now);
            });
      }
    } catch (Transcript.Departure e) {
      if (states.isEmpty() || !transcript.spent()) {
        throw mistake(file, e.line(), e.getMessage());
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    return told(file, states);
  }

  private static Transcript read(Path file) throws FileMistakes {
    try {
      String text = GivenFile.text(GivenFile.bytes(file, MOST_BYTES));
      return Transcript.parse(file.getFileName().toString(), text, Integer.MAX_VALUE);
    } catch (Unreadable e) {
      throw mistake(file, 0, e.getMessage());
    } catch (Transcript.Departure e) {
      throw mistake(file, e.line(), e.getMessage());
    }
  }

  private static List<String> told(Path file, List<RoleState> states) throws FileMistakes {
    List<String> told = new ArrayList<>();
    for (RoleState state : states) {
      if (state.replies() == 0) {
        throw mistake(
            file,
            0,
            "holds no sound reading of the " + state.role().key() + ": " + state.lastError());
      }
      told.add(
          "transcript: "
              + state.role().key()
              + " "
              + state.value()
              + ", "
              + state.replies()
              + (state.replies() == 1 ? " reading" : " readings"));
    }
    if (told.isEmpty()) {
      throw mistake(
          file, 0, "ends before a role was read; probe --capture writes one that doesn't");
    }
    return told;
  }

  private static FileMistakes mistake(Path file, int line, String message) {
    return new FileMistakes(List.of(new Mistake(file.toString(), line, "", message)));
  }
}

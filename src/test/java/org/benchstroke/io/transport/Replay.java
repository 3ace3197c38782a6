package org.benchstroke.io.transport;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Objects;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.VirtualClock;
import org.benchstroke.io.instrument.InstrumentException;

/** Replays a transcript with its bytes cut into chunks of every size, each time from the start. */
public final class Replay {
  public static final Endpoint ENDPOINT = new Endpoint.Tcp("bench.invalid", 5025);
  private static final int LARGEST_CHUNK = 80;

  private final Transcript transcript;
  private final VirtualClock clock = new VirtualClock(Instant.EPOCH);

  private Replay(Transcript transcript) {
    this.transcript = transcript;
  }

  /** What a driver does with the link; it may assert what it likes. */
  public interface Script {
    void play(Replay replay) throws InstrumentException;
  }

  /** One replay, with chunks of one size. */
  public static Replay of(String transcript, int chunk) {
    return new Replay(read(transcript, chunk));
  }

  public void assertUsedUp() {
    transcript.requireUsedUp();
  }

  public static void atEveryChunkSize(String transcript, Script script) throws InstrumentException {
    for (int chunk = 1; chunk <= LARGEST_CHUNK; chunk++) {
      Replay replay = new Replay(read(transcript, chunk));
      script.play(replay);
      replay.transcript.requireUsedUp();
    }
  }

  /** Replays a transcript that lies outside the tests' own: one that was captured. */
  public static void ofFileAtEveryChunkSize(Path file, Script script)
      throws InstrumentException, IOException {
    String text = Files.readString(file);
    for (int chunk = 1; chunk <= LARGEST_CHUNK; chunk++) {
      Replay replay = new Replay(Transcript.parse(file.getFileName().toString(), text, chunk));
      script.play(replay);
      replay.transcript.requireUsedUp();
    }
  }

  private static Transcript read(String name, int chunk) {
    String path = "/transcripts/" + name + ".txt";
    try (InputStream in = Objects.requireNonNull(Replay.class.getResourceAsStream(path), path)) {
      return Transcript.parse(name, new String(in.readAllBytes(), StandardCharsets.UTF_8), chunk);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public LinkOpener links() {
    return transcript;
  }

  public VirtualClock clock() {
    return clock;
  }

  public Deadline inMillis(long millis) {
    return Deadline.in(clock, millis * 1_000_000L);
  }

  public void passMillis(long millis) {
    clock.waitUntil(clock.nanos() + millis * 1_000_000L);
  }
}

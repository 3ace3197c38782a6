package org.benchstroke.io.transport;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.util.Arrays;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.io.transport.LinkException.Kind;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What every link of the operating system must do. Time is real here: a lower bound is exact, an
 * upper one has room for a busy machine.
 */
abstract class ByteLinkContract {
  static final long MILLI = 1_000_000L;

  /** Long enough for anything that happens at all. */
  private static final long AMPLE_MILLIS = 20_000;

  /** The other end, in the hands of the test. */
  interface Peer extends AutoCloseable {
    Endpoint endpoint();

    /** Takes the connection that was just opened, if there is anything to take. */
    void meet() throws IOException;

    void say(byte[] bytes) throws IOException;

    byte[] hear(int count) throws IOException;

    /** Vanishes, so that the link breaks. */
    void vanish() throws IOException;

    /** Is there again, at the same address. */
    void comeBack() throws IOException;

    @Override
    void close() throws IOException;
  }

  final SystemClock clock = SystemClock.realTime();
  private Peer peer;
  private ByteLink link;

  abstract Peer peer() throws IOException;

  @BeforeEach
  void open() throws IOException {
    peer = peer();
    connect();
  }

  @AfterEach
  void close() throws IOException {
    if (link != null) {
      link.close();
    }
    if (peer != null) {
      peer.close();
    }
  }

  private void connect() throws IOException {
    link = new SystemLinks().open(peer.endpoint(), ample());
    peer.meet();
  }

  private Deadline in(long millis) {
    return Deadline.inWall(clock, millis * MILLI);
  }

  private Deadline ample() {
    return in(AMPLE_MILLIS);
  }

  private static byte[] bytes(int count) {
    byte[] bytes = new byte[count];
    new Random(count).nextBytes(bytes);
    return bytes;
  }

  private byte[] received(int count, int chunk) throws LinkException {
    byte[] all = new byte[count];
    for (int have = 0; have < count; ) {
      have += link.receive(all, have, Math.min(chunk, count - have), ample());
    }
    return all;
  }

  private LinkException failure(Deadline deadline) {
    return catchThrowableOfType(
        LinkException.class, () -> link.receive(new byte[8], 0, 8, deadline));
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 7, 64, 255, 1000})
  void bytesGoBothWaysUnchanged(int chunk) throws Exception {
    byte[] sent = bytes(2000);
    for (int from = 0; from < sent.length; from += chunk) {
      byte[] piece = Arrays.copyOfRange(sent, from, Math.min(sent.length, from + chunk));
      link.send(piece, ample());
      assertThat(peer.hear(piece.length)).isEqualTo(piece);
      peer.say(piece);
      assertThat(received(piece.length, chunk)).isEqualTo(piece);
    }
  }

  @Test
  void everyByteValuePasses() throws Exception {
    byte[] all = new byte[256];
    for (int i = 0; i < all.length; i++) {
      all[i] = (byte) i;
    }
    link.send(all, ample());
    assertThat(peer.hear(256)).isEqualTo(all);
    peer.say(all);
    assertThat(received(256, 256)).isEqualTo(all);
  }

  @Test
  void receivesNoMoreThanAskedForAndWhereAsked() throws Exception {
    peer.say(new byte[] {1, 2, 3, 4, 5});
    byte[] buffer = new byte[8];
    int first = link.receive(buffer, 3, 2, ample());
    assertThat(first).isBetween(1, 2);
    assertThat(Arrays.copyOf(buffer, 3)).containsOnly(0);
    assertThat(buffer[3]).isEqualTo((byte) 1);
    assertThat(received(5 - first, 8)).endsWith(5);
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 7, 30, 130})
  void silenceEndsAtTheDeadlineAndNotBefore(int millis) {
    long start = clock.nanos();
    Deadline deadline = in(millis);
    LinkException failure = failure(deadline);
    assertThat(clock.nanos()).isGreaterThanOrEqualTo(start + millis * MILLI);
    assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
    assertThat(failure).hasMessageContaining(peer.endpoint().text());
  }

  @Test
  void aPassedDeadlineIsNoReplyEvenIfSomethingWaits() throws Exception {
    peer.say(new byte[] {1});
    assertThat(failure(in(-1)).kind()).isEqualTo(Kind.NO_REPLY);
    assertThat(received(1, 1)).containsExactly(1);
  }

  @Test
  void drainThrowsAwayWhatCameAndWaitsForTheQuiet() throws Exception {
    peer.say(bytes(700));
    received(1, 1);
    long start = clock.nanos();
    int thrown = link.drain(60 * MILLI, ample());
    assertThat(clock.nanos()).isGreaterThanOrEqualTo(start + 60 * MILLI);
    assertThat(thrown).isEqualTo(699);
    peer.say(new byte[] {42});
    assertThat(received(1, 1)).containsExactly(42);
  }

  @Test
  void drainOfASilentLineTakesTheQuiet() throws Exception {
    long start = clock.nanos();
    assertThat(link.drain(25 * MILLI, ample())).isZero();
    assertThat(clock.nanos()).isGreaterThanOrEqualTo(start + 25 * MILLI);
    assertThat(link.drain(0, ample())).isZero();
  }

  @Test
  void drainGivesUpOnALineThatTalksOn() throws Exception {
    CompletableFuture<Void> talk = CompletableFuture.runAsync(this::talkUntilBroken);
    received(1, 1);
    LinkException failure =
        catchThrowableOfType(LinkException.class, () -> link.drain(400 * MILLI, in(200)));
    assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
    assertThat(failure).hasMessageContaining("does not stop talking");
    talking = false;
    talk.get(AMPLE_MILLIS, TimeUnit.MILLISECONDS);
  }

  private volatile boolean talking = true;

  private void talkUntilBroken() {
    try {
      while (talking) {
        peer.say(new byte[] {'x'});
        clock.waitUntil(clock.nanos() + 10 * MILLI);
      }
    } catch (IOException | InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void aPeerThatVanishesIsPortGoneAndComesBackToANewLink() throws Exception {
    peer.vanish();
    assertThat(failure(ample()).kind()).isEqualTo(Kind.PORT_GONE);
    assertThat(catchThrowableOfType(LinkException.class, () -> link.drain(MILLI, ample())).kind())
        .isEqualTo(Kind.PORT_GONE);
    LinkException absent = catchThrowableOfType(LinkException.class, this::connect);
    assertThat(absent.kind()).isEqualTo(Kind.PORT_GONE);
    assertThat(absent).hasMessageContaining(peer.endpoint().text());
    link.close();
    peer.comeBack();
    connect();
    link.send(new byte[] {1, 2}, ample());
    assertThat(peer.hear(2)).containsExactly(1, 2);
    peer.say(new byte[] {3});
    assertThat(received(1, 1)).containsExactly(3);
  }

  @Test
  void closingFromAnotherThreadWakesTheOneThatWaits() throws Exception {
    CompletableFuture<LinkException> waits = CompletableFuture.supplyAsync(() -> failure(ample()));
    clock.waitUntil(clock.nanos() + 30 * MILLI);
    long start = clock.nanos();
    link.close();
    assertThat(waits.get(AMPLE_MILLIS, TimeUnit.MILLISECONDS).kind()).isEqualTo(Kind.PORT_GONE);
    assertThat(clock.nanos() - start).isLessThan(AMPLE_MILLIS / 2 * MILLI);
  }

  @Test
  void anInterruptDoesNotCutTheWaitShortAndIsPassedOn() {
    Thread.currentThread().interrupt();
    long start = clock.nanos();
    LinkException failure = failure(in(20));
    assertThat(Thread.interrupted()).isTrue();
    assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
    assertThat(clock.nanos()).isGreaterThanOrEqualTo(start + 20 * MILLI);
  }

  @Test
  void aClosedLinkIsPortGoneAndMayBeClosedAgain() {
    link.close();
    link.close();
    assertThat(failure(ample()).kind()).isEqualTo(Kind.PORT_GONE);
    assertThat(
            catchThrowableOfType(LinkException.class, () -> link.send(new byte[] {1}, ample()))
                .kind())
        .isEqualTo(Kind.PORT_GONE);
  }
}

package org.benchstroke.web.access;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.benchstroke.core.clock.BenchClock;

/**
 * Proves who somebody is: by name and secret, or on this machine by the name alone while nobody has
 * a secret. Any thread.
 */
public final class SignIn {
  private static final int MOST_ADDRESSES = 4096;
  private static final int MOST_NAMES = 1024;
  private static final long LONGEST_TURN_SECONDS = 5;

  /** Of an IPv6 address, what one network has: whoever has one of its addresses has all. */
  private static final int NETWORK_BYTES = 8;

  private final Operators operators;
  private final Throttle byAddress;
  private final Throttle byName;

  /** One at a time: each takes a processor for a tenth of a second, and units are being sampled. */
  private final Semaphore turn = new Semaphore(1, true);

  public SignIn(Operators operators, BenchClock clock) {
    this.operators = operators;
    this.byAddress = new Throttle(clock, MOST_ADDRESSES);
    this.byName = new Throttle(clock, MOST_NAMES);
  }

  /** What became of an attempt. */
  public sealed interface Result {
    /** It was right. */
    record Proven(NamedOperator operator) implements Result {}

    /** Name and secret don't belong together. */
    record Wrong() implements Result {}

    /** There were too many wrong ones: not before so many seconds, 1 or more. */
    record TooSoon(long seconds) implements Result {}

    /** Others are trying, more than are taken at a time. */
    record Busy() implements Result {}
  }

  /** Whether somebody has a PIN, so that a name alone proves nothing. */
  public boolean needsSecret() {
    return operators.now().isPresent();
  }

  /** Who they are now, by the file: rights may have changed since they signed in. */
  Optional<NamedOperator> find(String name) {
    return operators.now().flatMap(file -> file.find(name));
  }

  /** The names of those who may sign in. */
  public List<NamedOperator> known() {
    return operators.now().map(OperatorsFile::operators).orElse(List.of());
  }

  /**
   * Compares a name and a secret with the file.
   *
   * @param from where the attempt comes from
   */
  public Result prove(String name, String secret, InetAddress from) {
    Optional<NamedOperator> known = find(name);
    List<String> address = List.of(network(from));
    // Whoever tries from elsewhere doesn't keep the one at the bench itself from signing in.
    List<String> named =
        known.isEmpty()
            ? List.of()
            : List.of(
                NamedOperator.key(name) + (from.isLoopbackAddress() ? " here" : " elsewhere"));
    long wait = byAddress.begin(address);
    wait = wait > 0 ? wait : byName.begin(named);
    if (wait > 0) {
      return new Result.TooSoon(TimeUnit.NANOSECONDS.toSeconds(wait - 1) + 1);
    }
    if (known.isEmpty()) {
      return new Result.Wrong();
    }
    Optional<Boolean> right = inTurn(known.get().secret(), secret);
    if (right.isEmpty()) {
      return new Result.Busy();
    }
    if (!right.get()) {
      return new Result.Wrong();
    }
    byAddress.right(address);
    byName.right(named);
    return new Result.Proven(known.get());
  }

  private Optional<Boolean> inTurn(String hash, String secret) {
    try {
      if (!turn.tryAcquire(LONGEST_TURN_SECONDS, TimeUnit.SECONDS)) {
        return Optional.empty();
      }
      try {
        return Optional.of(Secrets.is(hash, secret));
      } finally {
        turn.release();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.empty();
    }
  }

  private static String network(InetAddress from) {
    byte[] bytes = from.getAddress();
    return HexFormat.of()
        .formatHex(from instanceof Inet6Address ? Arrays.copyOf(bytes, NETWORK_BYTES) : bytes);
  }
}

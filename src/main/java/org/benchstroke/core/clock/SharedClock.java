package org.benchstroke.core.clock;

import java.io.IOException;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.locks.LockSupport;
import java.util.function.DoubleConsumer;
import java.util.function.LongConsumer;
import java.util.function.LongSupplier;

/**
 * The time of a bench that is simulated faster than the wall, for the process that serves it and
 * for the one that works with it alike; the two share a small file in memory.
 *
 * <p>While somebody waits for the bench it runs at its scale, up to the instant that is waited for.
 * From there on it runs at the wall's pace, as a real bench does: an exchange takes what it takes,
 * and a computer that is held up for 40 ms makes a delay of 40 ms of the bench's time, at any
 * scale. So the bench slows down where the computer can't keep up. Nobody waiting for {@link
 * #LEASE_NANOS} of the wall means that nobody works with it: it then runs at its scale throughout.
 *
 * <p>Who works with it writes, who serves reads, but for that lease. Safe for any thread; two
 * threads that work with one bench wait on each other's account.
 */
public final class SharedClock implements BenchClock {
  /** Longer than any pause between two looks at the clock of a program that lives. Own choice. */
  static final long LEASE_NANOS = 10_000_000_000L;

  /** So much wall time is looked at to say how fast the bench runs. Own choice. */
  static final long LOOK_NANOS = 3_000_000_000L;

  /** A wait that ends late by less is the price of waking up; of the time looked at. Own choice. */
  private static final double LATE_SHARE = 0.1;

  /** Half a second for a reply is little where eight programs keep a processor busy. Own choice. */
  private static final double PATIENCE = 10.0;

  private static final long SLICE_NANOS = 20_000_000L;
  private static final long MAGIC = 0x62656e636831636bL;
  private static final int BYTES = 64;
  private static final long AT_ONCE = 0;
  private static final VarHandle LONGS =
      MethodHandles.byteBufferViewVarHandle(long[].class, ByteOrder.LITTLE_ENDIAN);

  /** What is shared, by its place in the file, byte. */
  private enum Word {
    MAGIC(0),
    /** Bits of the scale. */
    SCALE(8),
    /** Wall nanoseconds when it began. */
    BEGAN(16),
    /** Bench nanoseconds by which it is behind what the scale makes of the wall's. */
    LOST(24),
    /** The bench's instant up to which it runs at its scale. */
    AWAITED(32),
    /** Wall nanoseconds when who works with it last looked. */
    LOOKED(40),
    /** Wall nanoseconds by which waits ended late, in all. */
    LATE(48);

    private final int place;

    Word(int place) {
      this.place = place;
    }
  }

  /** The wall as this clock sees it; a test has its own. */
  record Wall(LongSupplier nanos, LongConsumer park) {
    static final Wall REAL = new Wall(System::nanoTime, LockSupport::parkNanos);
  }

  private final ByteBuffer shared;
  private final Wall wall;
  private final boolean works;
  private final double scale;
  private final DoubleConsumer slowed;
  private long newest = Long.MIN_VALUE;
  private long lookFrom;
  private long lookFromBench;
  private long lookFromLate;
  private boolean told;

  private SharedClock(ByteBuffer shared, Wall wall, boolean works, DoubleConsumer slowed) {
    this.shared = shared;
    this.wall = wall;
    this.works = works;
    this.slowed = slowed;
    this.scale = Double.longBitsToDouble(get(Word.SCALE));
    this.lookFrom = wall.nanos().getAsLong();
    this.lookFromLate = get(Word.LATE);
    this.lookFromBench = nanos();
  }

  /**
   * For who serves.
   *
   * @param file an empty one, to be shared
   * @param scale bench seconds per wall second, above 1 to 1000
   * @param slowed is told once, on a thread that waits, if the computer does not keep up: how many
   *     bench seconds per wall second there were
   * @throws IOException if the file can't be written
   */
  public static SharedClock serve(Path file, double scale, DoubleConsumer slowed)
      throws IOException {
    return serve(mapped(file), Wall.REAL, scale, slowed);
  }

  static SharedClock serve(ByteBuffer shared, Wall wall, double scale, DoubleConsumer slowed) {
    if (!(scale > 1.0 && scale <= 1000.0)) {
      throw new IllegalArgumentException("a shared clock's scale is above 1 to 1000, not " + scale);
    }
    set(shared, Word.SCALE, Double.doubleToLongBits(scale));
    set(shared, Word.BEGAN, wall.nanos().getAsLong());
    set(shared, Word.AWAITED, Long.MAX_VALUE);
    set(shared, Word.LOOKED, wall.nanos().getAsLong());
    set(shared, Word.MAGIC, MAGIC);
    return new SharedClock(shared, wall, false, slowed);
  }

  /**
   * For who works with the bench.
   *
   * @return empty if nobody serves there, or not by a wall clock that both processes see
   */
  public static Optional<SharedClock> join(Path file) {
    try {
      boolean clock = Files.size(file) == BYTES && magic(Files.readAllBytes(file)) == MAGIC;
      return clock ? join(mapped(file), Wall.REAL) : Optional.empty();
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  static Optional<SharedClock> join(ByteBuffer shared, Wall wall) {
    long idle = wall.nanos().getAsLong() - (long) LONGS.getVolatile(shared, Word.LOOKED.place);
    if (Math.abs(idle) > LEASE_NANOS + LOOK_NANOS) {
      return Optional.empty();
    }
    return Optional.of(new SharedClock(shared, wall, true, pace -> {}));
  }

  private static long magic(byte[] bytes) {
    return ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).getLong();
  }

  private static ByteBuffer mapped(Path file) throws IOException {
    try (FileChannel channel =
        FileChannel.open(file, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
      return channel.map(FileChannel.MapMode.READ_WRITE, 0, BYTES);
    }
  }

  @Override
  public synchronized long nanos() {
    long now = wall.nanos().getAsLong();
    if (works) {
      set(shared, Word.LOOKED, now);
      if (get(Word.AWAITED) == Long.MAX_VALUE) {
        runUntil(AT_ONCE);
      }
    }
    // Two words change one after the other, and another process may look in between.
    newest = Math.max(newest, benchAt(now));
    return newest;
  }

  @Override
  public long wallNanos() {
    return wall.nanos().getAsLong();
  }

  private long benchAt(long wallNanos) {
    long steady = (long) ((wallNanos - get(Word.BEGAN)) * scale) - get(Word.LOST);
    long awaited = get(Word.AWAITED);
    return steady <= awaited ? steady : awaited + (long) ((steady - awaited) / scale);
  }

  /** From now on it runs at its scale up to the bench's instant, if that is to come. */
  private synchronized void runUntil(long benchNanos) {
    long now = wall.nanos().getAsLong();
    long bench = benchAt(now);
    set(shared, Word.LOST, (long) ((now - get(Word.BEGAN)) * scale) - bench);
    set(shared, Word.AWAITED, Math.max(benchNanos, bench));
  }

  @Override
  public Instant utc() {
    return Instant.now();
  }

  @Override
  public void waitUntil(long nanos) throws InterruptedException {
    if (!works) {
      park(nanos, scale);
    } else if (nanos > nanos()) {
      runUntil(nanos);
      try {
        park(nanos, scale);
        set(shared, Word.LATE, get(Word.LATE) + nanos() - nanos);
      } finally {
        runUntil(AT_ONCE);
      }
    }
  }

  /** A wire is no faster than it is. */
  @Override
  public void waitExactlyUntil(long nanos) throws InterruptedException {
    park(nanos, 1.0);
  }

  @Override
  public void waitInWall(long wallNanos) throws InterruptedException {
    park(nanos() + wallNanos, 1.0);
  }

  private void park(long until, double pace) throws InterruptedException {
    for (long left = until - nanos(); left > 0; left = until - nanos()) {
      if (Thread.interrupted()) {
        throw new InterruptedException("waiting was interrupted");
      }
      wall.park().accept(Math.max(1L, Math.min((long) (left / pace), SLICE_NANOS)));
      if (!works) {
        look().ifPresent(slowed);
      }
    }
  }

  /** Who serves looks whether anybody is there, and whether the computer keeps up. */
  private synchronized OptionalDouble look() {
    long now = wall.nanos().getAsLong();
    boolean alone = now - get(Word.LOOKED) > LEASE_NANOS;
    if (alone) {
      runUntil(Long.MAX_VALUE);
      set(shared, Word.LOOKED, now);
    } else if (now - lookFrom < LOOK_NANOS) {
      return OptionalDouble.empty();
    }
    double wallNanos = now - lookFrom;
    double pace = (nanos() - lookFromBench) / wallNanos;
    boolean late = (get(Word.LATE) - lookFromLate) / wallNanos > LATE_SHARE;
    lookFrom = now;
    lookFromBench = nanos();
    lookFromLate = get(Word.LATE);
    if (alone || told || !late) {
      return OptionalDouble.empty();
    }
    told = true;
    return OptionalDouble.of(pace);
  }

  /** What works with the bench goes over links, which are no faster than the wall. */
  @Override
  public double scale() {
    return works ? 1.0 : scale;
  }

  @Override
  public double patience() {
    return PATIENCE;
  }

  @Override
  public double pace() {
    return scale;
  }

  private long get(Word word) {
    return (long) LONGS.getVolatile(shared, word.place);
  }

  private static void set(ByteBuffer shared, Word word, long value) {
    LONGS.setVolatile(shared, word.place, value);
  }
}

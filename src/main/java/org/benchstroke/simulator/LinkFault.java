package org.benchstroke.simulator;

/**
 * A fault of the link to an instrument, as a table {@code [[fault]]} of a simulation file says it.
 * Immutable.
 *
 * @param file the simulation file
 * @param number its place among the file's faults, from 1
 * @param line where the file has its key {@code on}
 * @param on the instrument's name in the bench file, or {@link #ALL}
 * @param kind what goes wrong
 * @param delayNanos by how much a late answer is late, or the time between two bytes of a slow one,
 *     ns of the bench; 0 for every other kind
 * @param when for which exchanges
 */
public record LinkFault(
    String file, int number, int line, String on, Kind kind, long delayNanos, LinkFault.When when) {
  /** The word for every instrument of the bench. */
  public static final String ALL = "all";

  /** What goes wrong with an exchange. But for unplug, the instrument has acted on its request. */
  public enum Kind {
    /** The answer never comes. */
    DROP("drop"),
    /** The answer comes later. */
    LATE("late"),
    /** The answer comes byte by byte. */
    SLOW_BYTES("slow bytes"),
    /** The answer before it on this connection comes once more, and only then this one. */
    ONE_BEHIND("one behind"),
    /** An RTU answer comes with another check value. */
    BAD_CRC("bad CRC"),
    /** The second half of the answer never comes. */
    CUT("cut"),
    /** As many other bytes come. */
    GARBAGE("garbage"),
    /** A Modbus instrument answers with exception 04, server device failure. */
    EXCEPTION("exception"),
    /** The answer that the same question got before the fault comes again. */
    FREEZE("freeze"),
    /** The other side closes the connection instead of answering. */
    RESET("reset"),
    /** The connection stays, but from this answer on nothing gets through it either way. */
    HALF_OPEN("half open"),
    /** Nothing is connected, and nothing can be. */
    UNPLUG("unplug");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    /** The word in a simulation file. */
    public String word() {
      return word;
    }
  }

  /** For which exchanges. */
  public sealed interface When {
    /**
     * By their number among those of the instruments that the fault is on.
     *
     * @param first from 1
     * @param count how many
     */
    record Exchanges(long first, long count) implements When {}

    /**
     * By the time since the bench's beginning, ns of the bench.
     *
     * @param fromNanos the beginning
     * @param forNanos the duration
     */
    record Span(long fromNanos, long forNanos) implements When {
      boolean holds(long nanos) {
        return nanos >= fromNanos && nanos - fromNanos < forNanos;
      }
    }

    /**
     * Each by itself, drawn from the simulation's seed.
     *
     * @param probability 0..1
     */
    record Chance(double probability) implements When {}
  }
}

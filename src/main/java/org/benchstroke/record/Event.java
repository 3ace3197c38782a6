package org.benchstroke.record;

import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;

/**
 * What a record can hold: what was commanded, read, said and what went wrong; never a verdict.
 *
 * <p>Each kind is one line of the journal; the components' names are the keys of the line's body,
 * in snake_case, with the unit at the end. Times are nanoseconds of the bench clock since the
 * record was opened.
 */
public sealed interface Event {
  /** The version of the format that is written and read. */
  int FORMAT = 2;

  /**
   * Whether it happens between the samples of a test: then the sampling is not held until it is on
   * the disk. What it tells has happened already, and no one has been asked anything by it.
   */
  default boolean betweenSamples() {
    return this instanceof Sampled
        || this instanceof Commanded
        || this instanceof Disturbed
        || this instanceof Rested
        || this instanceof Watched
        || this instanceof Faulted
        || this instanceof Powered;
  }

  /**
   * The first line: everything needed to judge the record without any other file.
   *
   * @param format version of this format, {@link #FORMAT}
   * @param tool name and version of the program
   * @param simulated what was simulated, in words; empty for a real bench
   * @param timeScale bench seconds per wall second, 1 on a real bench
   * @param serial serial number of the unit under test
   * @param operator who ran it
   * @param order the customer's order
   * @param utcOffset how far local time was ahead of UTC, ISO 8601: "+01:00", "Z"
   * @param files the bench, unit type and procedure files, in this order, whole
   */
  record Opened(
      int format,
      String tool,
      String simulated,
      double timeScale,
      String serial,
      String operator,
      String order,
      String utcOffset,
      List<SourceFile> files)
      implements Event {
    public Opened {
      ZoneOffset.of(utcOffset);
      files = List.copyOf(files);
    }
  }

  /**
   * A file as it was at the run.
   *
   * @param kind "bench", "unit type" or "procedure"
   * @param name the file's name, without folders
   * @param text its text
   */
  record SourceFile(String kind, String name, String text) {}

  /**
   * For whom the unit was tested, in what air, and what it is; after the first line, where anything
   * was stated.
   *
   * @param customer who ordered the test; empty if not stated
   * @param air what was stated of it, by name: "temperature_c" in °C, "humidity_pct" in %
   * @param facts what else was stated, none of it blank; only labels that are a {@link
   *     Label#fact()}
   */
  record Job(String customer, Map<String, Double> air, Map<Label, String> facts) implements Event {
    /** The temperature at the bench, °C. */
    public static final String TEMPERATURE = "temperature_c";

    /** The relative humidity there, %. */
    public static final String HUMIDITY = "humidity_pct";

    /** Of which no more was stated. */
    public Job(String customer, Map<String, Double> air) {
      this(customer, air, Map.of());
    }

    public Job {
      air = Map.copyOf(air);
      facts = Map.copyOf(facts);
      if (!facts.keySet().stream().allMatch(Label::fact)) {
        throw new IllegalArgumentException("not all of these are facts of a job: " + facts);
      }
    }
  }

  /**
   * What follows was recorded elsewhere, not by this program: taken from a file.
   *
   * @param what "trace" or "readings"
   * @param file the file's name, without folders
   * @param sha256 SHA-256 of its bytes, hexadecimal
   * @param columns what each column was taken for: "position: Pos [%]"
   * @param rows how many rows it has
   * @param dated whether the time of day of the record is known
   * @param ordered whether a procedure says what the file must show; else it was made of what the
   *     file shows
   * @param setpointHalfDigit half of the last digit that its setpoints were read to; 0 where they
   *     stand for themselves
   * @param setpointUnit the unit of that, "%" or "mA"
   * @param setpointMeasured whether its setpoints were measured, and not commanded
   * @param notes what was found in it, a sentence each
   */
  record Imported(
      String what,
      String file,
      String sha256,
      List<String> columns,
      int rows,
      boolean dated,
      boolean ordered,
      double setpointHalfDigit,
      String setpointUnit,
      boolean setpointMeasured,
      List<String> notes)
      implements Event {
    public Imported {
      columns = List.copyOf(columns);
      notes = List.copyOf(notes);
    }
  }

  /**
   * The run goes on with one that was interrupted, at the end of a test. The lines that follow are
   * the earlier record's own, from its second line on, with their times and steps; this run's come
   * after them, and their times count from the earlier record's opening, too.
   *
   * @param record the earlier record's name, without folders
   * @param sha256 SHA-256 of its bytes, hexadecimal
   * @param lines how many lines of it follow
   */
  record Resumed(String record, String sha256, int lines) implements Event {}

  /**
   * A caution that was shown.
   *
   * @param id which one
   * @param text its words
   * @param answer how it was acknowledged
   */
  record Cautioned(String id, String text, String answer) implements Event {}

  /**
   * An instrument said who it is.
   *
   * @param instrument its name in the bench file
   * @param expected maker, model and serial of the bench file
   * @param found what it said; empty if it can't tell
   * @param matches whether they agree
   */
  record Identified(String instrument, String expected, String found, boolean matches)
      implements Event {}

  /**
   * One check of the preflight.
   *
   * @param check its name
   * @param outcome "ok", "warning" or "blocks"
   * @param detail the numbers with their units
   * @param values the numbers by name; the unit ends the name
   */
  record Checked(String check, String outcome, String detail, Map<String, Double> values)
      implements Event {
    public Checked {
      values = Map.copyOf(values);
    }
  }

  /**
   * A test begins.
   *
   * @param index its place in the procedure, from 0
   * @param test its name
   * @param attempt from 1
   */
  record TestBegan(int index, String test, int attempt) implements Event {}

  /**
   * A test ended.
   *
   * @param index its place in the procedure
   * @param test its name
   * @param attempt from 1
   * @param outcome "complete", "void" (its figures don't count) or "not done"
   * @param reason why it is void or was not done; else empty
   */
  record TestEnded(int index, String test, int attempt, String outcome, String reason)
      implements Event {}

  /**
   * A setpoint was given to the source.
   *
   * @param setpointPercent % of travel
   * @param currentMilliamps what the source was told
   * @param readBackMilliamps the setting that it reported
   * @param askedNanos request sent
   * @param answeredNanos confirmed
   */
  record Commanded(
      double setpointPercent,
      double currentMilliamps,
      double readBackMilliamps,
      long askedNanos,
      long answeredNanos)
      implements Event {}

  /**
   * A current outside the setpoints, or an open loop, was put to the unit (loss of signal).
   *
   * @param what in words, "open loop" or "3.5 mA"
   * @param currentMilliamps the current; 0 with the loop open
   * @param open whether the loop was opened
   * @param askedNanos request sent
   * @param answeredNanos confirmed
   */
  record Disturbed(
      String what, double currentMilliamps, boolean open, long askedNanos, long answeredNanos)
      implements Event {}

  /**
   * One reading.
   *
   * @param channel "position", "stem", "supply", "loop", or "switch closed" and so on
   * @param value the value in the unit; a switch is 1 made, 0 not
   * @param unit "%", "deg", "mA" or "made"
   * @param quality "good" or "saturated"
   * @param raw the reply as it came
   * @param askedNanos request sent
   * @param answeredNanos reply complete
   */
  record Sampled(
      String channel,
      double value,
      String unit,
      String quality,
      String raw,
      long askedNanos,
      long answeredNanos)
      implements Event {
    /** The quality of a reading within its channel's range. */
    public static final String GOOD = "good";

    /** The quality of one at or beyond an end of it: the true value may lie further out. */
    public static final String SATURATED = "saturated";

    public boolean saturated() {
      return !quality.equals(GOOD);
    }
  }

  /**
   * The wait for rest ended.
   *
   * @param label what was waited for, for people: "travel 50 up"
   * @param leg which part of its step it is
   * @param setpointPercent the setpoint in force
   * @param direction "up", "down" or "none"
   * @param cycle from 1; 0 where it does not apply
   * @param settled whether the rest rule was met
   * @param clean whether the approach was one-way, without coming back over the setpoint
   * @param fromNanos start of the quiet window
   * @param toNanos its end
   * @param limitPercent the largest range that the rule allowed within the window, %
   */
  record Rested(
      String label,
      Leg leg,
      double setpointPercent,
      String direction,
      int cycle,
      boolean settled,
      boolean clean,
      long fromNanos,
      long toNanos,
      double limitPercent)
      implements Event {}

  /**
   * A time was watched without waiting for rest: a hold or a ramp.
   *
   * @param label what was watched, for people: "hold 50", "ramp up"
   * @param setpointPercent the setpoint at its end
   * @param whole whether it lasted as long as planned
   * @param reason why it was cut short; else empty
   * @param fromNanos its start
   * @param toNanos its end
   */
  record Watched(
      String label,
      double setpointPercent,
      boolean whole,
      String reason,
      long fromNanos,
      long toNanos)
      implements Event {}

  /**
   * Something failed that bears on the figures.
   *
   * @param fault what
   * @param instrument on which instrument; empty if on none
   * @param detail what happened, with numbers, and what to do
   */
  record Faulted(RunFault fault, String instrument, String detail) implements Event {}

  /**
   * The motor supply was switched.
   *
   * @param on whether it is on now
   * @param how "relay" or "by hand"
   */
  record Powered(boolean on, String how) implements Event {}

  /**
   * The safe signal was commanded.
   *
   * @param signalMilliamps the safe signal
   * @param confirmed whether the source confirmed it
   * @param detail what was read back, or why it could not be confirmed
   */
  record MadeSafe(double signalMilliamps, boolean confirmed, String detail) implements Event {}

  /**
   * A switch changed while it was set by hand.
   *
   * @param which the switch, "closed", "open-auxiliary" and so on
   * @param made whether it is made now
   * @param by what was turned: "cam" or "wheel"
   * @param degrees the angle of the stem then, °; of a cam that was turned on a stem that stands,
   *     the stem's
   * @param halfDegrees half of what the stem turned between the two looks, °
   * @param expandedDegrees U for a coverage of 95 %, °
   */
  record SwitchPassed(
      String which,
      boolean made,
      String by,
      double degrees,
      double halfDegrees,
      double expandedDegrees)
      implements Event {}

  /**
   * A step of a unit's set-up ended.
   *
   * @param step which one
   * @param outcome "done", "skipped" or "came set up"
   * @param reason why it was skipped; else empty
   * @param figures what was measured or typed, by name; the unit ends the name
   * @param facts what else was typed, by name
   */
  record SetUpStep(
      String step,
      String outcome,
      String reason,
      Map<String, Double> figures,
      Map<String, String> facts)
      implements Event {
    public SetUpStep {
      figures = Map.copyOf(figures);
      facts = Map.copyOf(facts);
    }
  }

  /**
   * How the unit was set up before this run, by the record of that.
   *
   * @param record that record's name, without folders
   * @param sha256 SHA-256 of its bytes, hexadecimal
   * @param begunUtc when it was begun, ISO 8601
   * @param operator who set it up
   * @param how "complete" or how else it ended; "interrupted" if it has no end
   * @param steps its steps, in their order
   */
  record SetUp(
      String record,
      String sha256,
      String begunUtc,
      String operator,
      String how,
      List<SetUpStep> steps)
      implements Event {
    public SetUp {
      steps = List.copyOf(steps);
    }
  }

  /**
   * The last line.
   *
   * @param how "complete", "preflight failed", "action reversed", "stopped" or "fault"
   * @param reason in words
   * @param wallSeconds how long the run took on the wall clock, s
   */
  record Closed(String how, String reason, double wallSeconds) implements Event {}
}

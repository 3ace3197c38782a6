package org.benchstroke.judge;

import java.util.Comparator;
import java.util.List;

/**
 * Something that stands out of a judged run. What it is says its kind; the sentence is for people.
 * Immutable.
 *
 * @param kind what it is about
 * @param sentence for people
 */
public record Finding(Kind kind, String sentence) {
  /** What a finding is about, most important first. */
  public enum Kind {
    /** Others recorded it; what was found in their file. */
    RECORDED_ELSEWHERE,
    /** Readings that no unit can have. */
    IMPOSSIBLE_READING,
    /** The position input gets a new value more seldom than it is read. */
    SELDOM_CONVERTED,
    /** It goes the wrong way. */
    ACTION,
    /** It does not do what was ordered for a loss of its signal. */
    SIGNAL_LOSS,
    /** A limit cycle. */
    HUNTING,
    /** Moves back and forth without a steady period. */
    RESTLESS,
    /** Where a rest ends is not known. */
    CREEP,
    /** A switch cuts the motor short of an end. */
    END_SHORT,
    /** It does not come to its setpoints. */
    ASTRAY,
    /** A constant error. */
    ZERO,
    /** An error that grows with the setpoint. */
    SPAN,
    /** The feedback is clean, the stem is not. */
    SLACK,
    /** How far it is from hunting. */
    HUNTING_MARGIN,
    /** No independent reference has seen the stem. */
    STEM_NOT_PROVEN,
    /** Nothing independent has seen the setpoint, or not all the time. */
    SETPOINT_NOT_PROVEN,
    /** A person read the position, at rest only. */
    READ_BY_EYE,
    /** Simple acceptance was agreed where the instruments are not good enough for it. */
    SIMPLE_ACCEPTANCE,
    /** What U does not know of the temperature. */
    AMBIENT,
    /** What a test tells and nobody judges. */
    NOTE
  }

  /** Most important first; of one kind in the order in which they were found. */
  static List<Finding> sorted(List<Finding> findings) {
    return findings.stream().sorted(Comparator.comparing(Finding::kind)).toList();
  }
}

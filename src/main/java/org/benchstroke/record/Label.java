package org.benchstroke.record;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** What people typed to name a run and its unit: no figure and no verdict follows from it. */
public enum Label {
  SERIAL("serial number"),
  ORDER("order"),
  CUSTOMER("customer"),
  OPERATOR("operator"),

  /** Where the unit belongs in the plant, as the customer names the place. */
  TAG("tag"),

  ACTUATOR_MAKER("actuator maker"),
  ACTUATOR_MODEL("actuator model"),
  VALVE_MAKER("valve maker"),
  VALVE_MODEL("valve model"),
  VALVE_SERIAL("valve serial number"),

  /** When the unit came in, a date of ISO 8601. */
  RECEIVED("date received"),

  /** Who allowed one more attempt at a unit that had had many. */
  SUPERVISOR("supervisor");

  private final String words;

  Label(String words) {
    this.words = words;
  }

  /** As people read it. */
  public String words() {
    return words;
  }

  /** As it is typed and written. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** As it stands in a record. */
  @Override
  public String toString() {
    return key();
  }

  /** The one with this key. */
  public static Optional<Label> of(String key) {
    return Stream.of(values()).filter(label -> label.key().equals(key)).findFirst();
  }

  /** Whether it is one of {@link Event.Job#facts()}. */
  public boolean fact() {
    return switch (this) {
      case SERIAL, ORDER, CUSTOMER, OPERATOR -> false;
      default -> true;
    };
  }

  /** Whether this can stand there: any words, but for a date. */
  public boolean fits(String text) {
    if (this != RECEIVED) {
      return true;
    }
    try {
      return LocalDate.parse(text).getYear() > 0;
    } catch (DateTimeException e) {
      return false;
    }
  }

  /** What stands in the record itself; empty if nothing was typed. */
  String written(RunRecord record) {
    Optional<Event.Job> job = record.events(Event.Job.class).findFirst();
    return switch (this) {
      case SERIAL -> record.opened().serial();
      case ORDER -> record.opened().order();
      case OPERATOR -> record.opened().operator();
      case CUSTOMER -> job.map(Event.Job::customer).orElse("");
      default -> job.flatMap(j -> Optional.ofNullable(j.facts().get(this))).orElse("");
    };
  }
}

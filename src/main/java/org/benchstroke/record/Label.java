package org.benchstroke.record;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** What people typed to name a run: no figure and no verdict follows from it. */
public enum Label {
  SERIAL("serial number"),
  ORDER("order"),
  CUSTOMER("customer"),
  OPERATOR("operator");

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

  /** The one with this key. */
  public static Optional<Label> of(String key) {
    return Stream.of(values()).filter(label -> label.key().equals(key)).findFirst();
  }

  /** What stands in the record itself; empty if nothing was typed. */
  String written(RunRecord record) {
    return switch (this) {
      case SERIAL -> record.opened().serial();
      case ORDER -> record.opened().order();
      case OPERATOR -> record.opened().operator();
      case CUSTOMER ->
          record.events(Event.Job.class).map(Event.Job::customer).findFirst().orElse("");
    };
  }
}

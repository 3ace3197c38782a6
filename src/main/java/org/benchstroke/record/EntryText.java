package org.benchstroke.record;

/** A line of a record for programs that follow a run, without its check value. Stateless. */
public final class EntryText {
  private EntryText() {}

  /** As an object of JSON, in one line: the keys of a record's line, but for {@code check}. */
  public static String of(Entry entry) {
    return RecordLines.beginning(
            entry.number(), entry.nanos(), entry.utc(), entry.step(), entry.event())
        + "}";
  }
}

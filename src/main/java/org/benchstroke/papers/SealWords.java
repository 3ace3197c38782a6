package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.papers.Block.Fact;
import org.benchstroke.record.Amendment;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.Seal;

/** Whether a record is as it was written, and what was amended beside it, in words. Stateless. */
final class SealWords {
  /** Enough to tell keys apart at a glance; the whole is in the report. */
  private static final int SHORT = 16;

  private SealWords() {}

  static List<Fact> facts(RunRecord record) {
    List<Fact> facts = new ArrayList<>();
    record
        .seal()
        .ifPresent(
            seal -> {
              facts.add(new Fact("Seal of the record", seal.text()));
              seal.key().ifPresent(key -> facts.add(new Fact("Sealed by key", key.fingerprint())));
            });
    record.amendments().all().stream()
        .map(a -> new Fact("Amended", told(record, a) + "; key " + a.key().fingerprint()))
        .forEach(facts::add);
    return facts;
  }

  /** What must be seen beside the word. */
  static List<String> notices(RunRecord record) {
    List<String> notices = new ArrayList<>();
    record.doubts().forEach(doubt -> notices.add("CHANGED RECORD: " + doubt + "."));
    record
        .seal()
        .filter(seal -> seal.state() == Seal.State.NOT_SEALED)
        .ifPresent(seal -> notices.add("NOT SEALED: " + seal.detail() + "."));
    record
        .seal()
        .filter(seal -> seal.state() == Seal.State.RENAMED)
        .ifPresent(seal -> notices.add("SEALED UNDER ANOTHER NAME: " + seal.detail() + "."));
    record.amendments().all().forEach(a -> notices.add("AMENDED: " + told(record, a) + "."));
    return notices;
  }

  /** The same for a terminal, where what limits the verdict stands above it. */
  static List<String> warnings(RunRecord record) {
    List<String> warnings = new ArrayList<>(record.doubts());
    record
        .seal()
        .filter(s -> s.state() == Seal.State.NOT_SEALED || s.state() == Seal.State.RENAMED)
        .ifPresent(seal -> warnings.add(seal.text()));
    return warnings;
  }

  /** What else a terminal shows of it. */
  static List<String> lines(RunRecord record) {
    List<String> lines = new ArrayList<>();
    record
        .seal()
        .filter(seal -> seal.state() == Seal.State.SEALED)
        .flatMap(Seal::key)
        .ifPresent(
            key -> lines.add("Sealed by key " + key.fingerprint().substring(0, SHORT) + "…"));
    record.amendments().all().forEach(a -> lines.add("Amended: " + told(record, a) + "."));
    return lines;
  }

  private static String told(RunRecord record, Amendment amendment) {
    boolean other =
        record.seal().flatMap(Seal::key).filter(k -> !k.equals(amendment.key())).isPresent();
    return amendment.label().words()
        + " "
        + amendment.is()
        + ", was "
        + (amendment.was().isBlank() ? "not stated" : amendment.was())
        + "; by "
        + amendment.by()
        + ", "
        + ReportPages.minute(record, amendment.utc())
        + ": "
        + amendment.reason()
        + (other ? " (sealed by another key than the record)" : "");
  }
}

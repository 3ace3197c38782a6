package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.record.Event;
import org.benchstroke.record.RecordHeading;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.run.Before;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;

/**
 * How the last run with a bench's source left it, by the records of a folder: both ends of the
 * newest ones are read until one is of that source. A run that sourced nothing left things as they
 * were before.
 */
public final class LastRun {
  /** A run that sourced nothing has a short record. */
  private static final long SHORT_BYTES = 2_000_000;

  /**
   * So many of the newest are looked at: a source of which they say nothing was not used for long,
   * and a start must not take longer with every record that there is.
   */
  private static final int MOST_LOOKED_AT = 500;

  private static final int MOST_TOLD = 3;

  private final InstrumentSpec source;

  /** Bench files that were met, and whether they are of this source: most are the same. */
  private final Map<String, Boolean> seen = new HashMap<>();

  private final List<String> unreadable = new ArrayList<>();
  private Optional<RecordHeading> newest = Optional.empty();

  private LastRun(BenchFile bench) {
    this.source = source(bench);
  }

  /**
   * What there is to say before a run.
   *
   * @return sentences; none if all is well
   * @throws IOException if the folder can't be listed
   */
  static List<String> warnings(RecordStore store, BenchFile bench) throws IOException {
    return of(store, bench).told();
  }

  /**
   * The unit of the last run with the bench's source, if that did not leave it proven safe and
   * nobody has seen to it; empty, too, if its unit type can't be read any more.
   *
   * @throws IOException if the folder can't be listed
   */
  static Optional<Before.LeftUnit> left(RecordStore store, BenchFile bench) throws IOException {
    return of(store, bench).unsafe().flatMap(LastRun::unit);
  }

  private static LastRun of(RecordStore store, BenchFile bench) throws IOException {
    LastRun last = new LastRun(bench);
    // Names that say nothing of their time have no order; they are few.
    store.undated().limit(MOST_LOOKED_AT).forEach(last::look);
    // The first one that is ours ends it.
    boolean unused = store.dated().limit(MOST_LOOKED_AT).anyMatch(last::look);
    return last;
  }

  private static Optional<Before.LeftUnit> unit(RecordHeading last) {
    String name = last.file().getFileName().toString();
    for (Event.SourceFile file : last.opened().files()) {
      if (file.kind().equals(UnitTypeReader.KIND)) {
        try {
          UnitType unit = UnitTypeReader.read(TomlDocument.parse(file.name(), file.text()));
          return Optional.of(new Before.LeftUnit(name, unit.safeSignal()));
        } catch (FileMistakes e) {
          return Optional.empty();
        }
      }
    }
    return Optional.empty();
  }

  /** Looks at a record; says whether it is of a run that left this source at some current. */
  private boolean look(RecordStore.Listing listing) {
    if (listing.heading().isEmpty()) {
      unreadable.add(listing.flaw());
      return false;
    }
    RecordHeading heading = listing.heading().get();
    if (!isOurs(heading) || sourcedNothing(heading)) {
      return false;
    }
    newest =
        newest
            .filter(other -> other.begun().isAfter(heading.begun()))
            .or(() -> Optional.of(heading));
    return true;
  }

  /** By the source's own maker, model and serial number: its address may have changed. */
  private boolean isOurs(RecordHeading heading) {
    return heading.opened().files().stream()
        .filter(file -> file.kind().equals(BenchFileReader.KIND))
        .anyMatch(file -> seen.computeIfAbsent(file.text(), text -> isOurs(file)));
  }

  private boolean isOurs(Event.SourceFile file) {
    try {
      return file.text().contains(source.serial())
          && source(BenchFileReader.read(TomlDocument.parse(file.name(), file.text())))
              .expected()
              .equals(source.expected());
    } catch (FileMistakes e) {
      return false;
    }
  }

  private static InstrumentSpec source(BenchFile bench) {
    return bench.playing(Role.SIGNAL_SOURCE).orElseThrow();
  }

  private static boolean sourcedNothing(RecordHeading heading) {
    if (heading.closed().isEmpty() || heading.safe().map(Event.MadeSafe::confirmed).orElse(false)) {
      return false;
    }
    try {
      if (heading.safe().isEmpty() || Files.size(heading.file()) > SHORT_BYTES) {
        // What others recorded commands no safe signal.
        return heading.safe().isEmpty();
      }
      RunRecord record = RecordReader.read(heading.file());
      return record.events(Event.MadeSafe.class).count() == 1
          && record.events(Event.Commanded.class).findAny().isEmpty();
    } catch (IOException | RecordReader.NotARecord e) {
      return false;
    }
  }

  private Optional<RecordHeading> unsafe() {
    return newest
        .filter(last -> !last.safe().map(Event.MadeSafe::confirmed).orElse(false))
        .filter(last -> !SeenTo.answered(last.file()));
  }

  private List<String> told() {
    List<String> told = new ArrayList<>();
    unsafe()
        .ifPresent(
            last ->
                told.add(
                    last.file()
                        + (last.closed().isEmpty()
                            ? ": this run was interrupted, so its unit may not have been left safe."
                            : ": this run ended without its safe signal confirmed.")
                        + " It was the last one with this source. The new run puts that unit's safe"
                        + " signal on before anything else. Once you have seen to that"
                        + " unit, say so with --seen-to and this record: then this warning ends."));
    unreadable.stream().limit(MOST_TOLD).forEach(each -> told.add("WARNING: skipped: " + each));
    if (unreadable.size() > MOST_TOLD) {
      told.add("WARNING: skipped: " + (unreadable.size() - MOST_TOLD) + " more files like that");
    }
    return told;
  }
}

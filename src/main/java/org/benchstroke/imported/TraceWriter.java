package org.benchstroke.imported;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.procedure.Aim;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.procedure.TestSpec;
import org.benchstroke.record.Event;
import org.benchstroke.record.Leg;
import org.benchstroke.record.RunFault;

/** Writes what a trace shows as the lines that a run would have written. One thread. */
final class TraceWriter {
  private static final double TOO_COARSE = 1.5;

  /** What lies between two tests is of none. */
  private static final Stretch BETWEEN = Stretch.none("");

  private final ImportJournal journal;
  private final ImportSetup given;
  private final Map<String, Column> columns;
  private final TraceRows trace;
  private final Plateaus file;
  private final double restLimitPercent;
  private final FoundTests found;
  private final Positions positions;
  private final List<Event.Faulted> throughout;
  private double lastPosition = Double.NaN;
  private String fault = "";
  private int waits;
  private int loopsRead;

  TraceWriter(
      ImportJournal journal,
      ImportSetup given,
      Map<String, Column> columns,
      TraceRows trace,
      Plateaus file,
      double restLimitPercent,
      FoundTests found,
      Optional<String> rounded) {
    this.journal = journal;
    this.given = given;
    this.columns = columns;
    this.trace = trace;
    this.file = file;
    this.restLimitPercent = restLimitPercent;
    this.found = found;
    this.positions = new Positions(given.bench(), given.unit(), columns);
    this.throughout =
        Stream.of(
                coarse().map(c -> new Event.Faulted(RunFault.SAMPLING, "", c)),
                rounded.map(r -> new Event.Faulted(RunFault.ROUNDED_READINGS, "", r)))
            .flatMap(Optional::stream)
            .toList();
  }

  /** All tests in their order, with what lies between them. */
  void tell(Procedure procedure) {
    journal.plan(procedure);
    throughout.forEach(journal::write);
    int next = 0;
    for (int index = 0; index < procedure.tests().size(); index++) {
      TestSpec test = procedure.tests().get(index);
      Stretch stretch = found.stretches().get(index);
      if (!stretch.found()) {
        journal.notDone(index, test.name(), stretch.note());
        continue;
      }
      for (int i = next; i < stretch.from(); i++) {
        plateau(index, i, BETWEEN);
      }
      test(index, test.name(), stretch, next, more(index));
      next = stretch.to();
    }
    for (int i = next; i < file.count(); i++) {
      plateau(0, i, BETWEEN);
    }
    if (waits > 0) {
      journal.check(
          "loop current at rest",
          loopsRead == waits ? "ok" : "warning",
          "the file holds it for " + loopsRead + " of " + waits + " rests",
          Map.of());
    }
  }

  /** What nobody looks at: without an order nothing passes, and there is nothing to hold it to. */
  private Optional<String> more(int test) {
    return found
        .finders()
        .get(test)
        .more()
        .filter(more -> given.procedure().isPresent())
        .flatMap(this::more);
  }

  private Optional<String> more(TraceFinder.More more) {
    List<Integer> where = found.more(more, file.count());
    if (where.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        "the file holds "
            + where.size()
            + " more "
            + (where.size() == 1 ? more.one() : more.many())
            + " than the procedure asks for, the first at "
            + Numbers.fixed(file.get(where.get(0)).fromSeconds(), 1)
            + " s, that were not judged; "
            + more.remedy()
            + ", or cut the trace");
  }

  private void test(int index, String name, Stretch stretch, int next, Optional<String> more) {
    journal.write(new Event.TestBegan(index, name, 1));
    fault = throughout.isEmpty() ? "" : throughout.get(0).detail();
    if (!stretch.note().isEmpty()) {
      journal.fault(RunFault.NOT_IN_FILE, stretch.note());
    }
    more.ifPresent(m -> journal.fault(RunFault.MORE, m));
    for (int i = stretch.from(); i < stretch.to(); i++) {
      if (i < next) {
        commanded(i);
      } else if (stretch.ramped(i)) {
        step(i);
      } else {
        plateau(index, i, stretch);
      }
      watched(index, i, stretch);
    }
    journal.endStep();
    journal.write(
        new Event.TestEnded(index, name, 1, fault.isEmpty() ? "complete" : "void", fault));
  }

  private void commanded(int index) {
    Plateau plateau = file.get(index);
    if (file.unsignalled(index)) {
      disturbed(index, file.open(index));
      return;
    }
    journal.write(
        new Event.Commanded(
            plateau.percent(),
            plateau.milliamps(),
            plateau.milliamps(),
            ImportJournal.nanos(asked(index)),
            ImportJournal.nanos(plateau.fromSeconds())));
  }

  /** The last row before a plateau: the signal changed after it. */
  private double asked(int index) {
    return index == 0 ? file.get(0).fromSeconds() : file.get(index - 1).toSeconds();
  }

  /** One of the many small steps of a ramp: nothing comes to rest on it. */
  private void step(int index) {
    Plateau plateau = file.get(index);
    TraceRows.Row first = plateau.rows().get(0);
    journal.at(first.seconds());
    journal.write(
        new Event.Commanded(
            first.setpointPercent(),
            first.milliamps(),
            first.milliamps(),
            ImportJournal.nanos(file.get(index - 1).toSeconds()),
            ImportJournal.nanos(first.seconds())));
    for (TraceRows.Row row : plateau.rows()) {
      journal.at(row.seconds());
      row(row);
    }
  }

  /** What ends with a plateau: a hold, or a ramp whose last step it is. */
  private void watched(int test, int index, Stretch stretch) {
    double end = file.get(index).toSeconds();
    Optional.ofNullable(stretch.watches().get(index))
        .ifPresent(w -> watched(test, w.aim(), index, end - w.seconds(), end));
    stretch.ramps().stream()
        .filter(r -> r.to() == index)
        .forEach(
            r -> {
              // The last step stands on after the ramp, until the unit has come there.
              double from = file.get(r.from() - 1).toSeconds();
              watched(test, r.aim(), index, from, file.get(index).fromSeconds());
            });
  }

  private void watched(int test, Aim aim, int index, double from, double to) {
    journal.begin(test, aim, Leg.ARRIVAL);
    journal.write(
        new Event.Watched(
            aim.words(),
            file.get(index).percent(),
            true,
            "",
            ImportJournal.nanos(from),
            ImportJournal.nanos(to)));
  }

  private void disturbed(int index, boolean open) {
    Plateau plateau = file.get(index);
    double milliamps = open ? 0.0 : plateau.milliamps();
    journal.write(
        new Event.Disturbed(
            open ? "open loop" : Numbers.plain(milliamps) + " mA",
            milliamps,
            open,
            ImportJournal.nanos(asked(index)),
            ImportJournal.nanos(plateau.fromSeconds())));
  }

  private void plateau(int test, int index, Stretch stretch) {
    Optional<Stretch.Wait> wait = Optional.ofNullable(stretch.waits().get(index));
    Plateau plateau = file.get(index);
    wait.ifPresentOrElse(w -> journal.begin(test, w.aim(), w.leg()), journal::endStep);
    journal.at(plateau.fromSeconds());
    if (stretch.losses().containsKey(index)) {
      disturbed(index, stretch.losses().get(index));
    } else {
      commanded(index);
    }
    RestFinder.Found rest = file.rest(index);
    boolean told = false;
    for (TraceRows.Row row : plateau.rows()) {
      if (!told && row.seconds() > rest.toSeconds()) {
        rested(index, wait);
        told = true;
      }
      journal.at(row.seconds());
      row(row);
    }
    if (!told) {
      rested(index, wait);
    }
    if (wait.isPresent()) {
      loop(plateau, rest.fromSeconds());
    }
  }

  private void rested(int index, Optional<Stretch.Wait> wait) {
    RestFinder.Found rest = file.rest(index);
    journal.write(
        new Event.Rested(
            wait.map(Stretch.Wait::label).orElse("between"),
            wait.map(Stretch.Wait::leg).orElse(Leg.LEAD_IN),
            file.get(index).percent(),
            wait.map(Stretch.Wait::direction).orElse(file.direction(index)),
            wait.map(Stretch.Wait::cycle).orElse(0),
            rest.settled(),
            rest.clean(),
            ImportJournal.nanos(rest.fromSeconds()),
            ImportJournal.nanos(rest.toSeconds()),
            restLimitPercent));
  }

  private void row(TraceRows.Row row) {
    if (!row.damage().isEmpty()) {
      damaged(RunFault.DAMAGED_ROW, "line " + row.line() + ": " + row.damage());
    }
    if (row.positioned()) {
      double pause = row.seconds() - lastPosition;
      if (pause > longestPause()) {
        damaged(
            RunFault.GAP,
            "line "
                + row.line()
                + ": no position for "
                + Numbers.significant(pause, 3)
                + " s, longest is "
                + Numbers.significant(longestPause(), 3)
                + " s");
      }
      lastPosition = row.seconds();
    }
    if (row.damage().isEmpty()) {
      row.values().entrySet().stream()
          .sorted(Map.Entry.comparingByKey())
          .forEach(e -> sampled(row, e.getKey(), e.getValue()));
    }
  }

  private void sampled(TraceRows.Row row, String channel, double value) {
    String unit = columns.get(channel).unit();
    boolean made = channel.startsWith(Columns.SWITCH);
    long half = ImportJournal.nanos(trace.timeStepSeconds() / 2.0);
    long stamp = ImportJournal.nanos(row.seconds());
    journal.write(
        new Event.Sampled(
            channel,
            value,
            unit,
            made ? Event.Sampled.GOOD : positions.quality(channel, value, unit),
            "line " + row.line() + ": " + Numbers.plain(value),
            stamp - half,
            stamp + half));
  }

  private double longestPause() {
    return given.unit().practice().gapPeriods() * given.bench().samplePeriodSeconds();
  }

  private void damaged(RunFault what, String detail) {
    journal.fault(what, detail);
    fault = fault.isEmpty() ? what + ", " + detail : fault;
  }

  /** The loop's current at rest against the setpoint, as a run does it. */
  private void loop(Plateau plateau, double from) {
    Optional<Channel> meter = channel(Role.LOOP_METER);
    Optional<Channel> source = channel(Role.SIGNAL_SOURCE);
    Optional<Double> found =
        plateau.rows().stream()
            .filter(r -> r.seconds() >= from && r.values().containsKey("loop"))
            .map(r -> r.values().get("loop"))
            .reduce((first, last) -> last);
    if (meter.isEmpty() || source.isEmpty() || !columns.containsKey("loop")) {
      return;
    }
    waits++;
    if (found.isEmpty()) {
      return;
    }
    loopsRead++;
    Current wanted = given.unit().currentAt(Position.ofPercent(plateau.percent()));
    double allowed = bound(source.get(), wanted) + bound(meter.get(), wanted);
    if (Math.abs(found.get() - wanted.milliamps()) > allowed) {
      damaged(
          RunFault.LOOP_CURRENT,
          "the loop carries "
              + Numbers.fixed(found.get(), 3)
              + " mA where "
              + Numbers.fixed(wanted.milliamps(), 3)
              + " mA was set");
    }
  }

  private static double bound(Channel channel, Current at) {
    return channel.accuracy().halfWidthAt(at.milliamps()) + channel.resolution();
  }

  private Optional<Channel> channel(Role role) {
    return given.bench().playing(role).map(s -> s.channels().get(role));
  }

  /** Whether the file has fewer samples than the bench file says; the usual pause tells. */
  private Optional<String> coarse() {
    List<Double> pauses = new ArrayList<>();
    double last = Double.NaN;
    for (TraceRows.Row row : trace.rows()) {
      if (row.positioned()) {
        if (!Double.isNaN(last)) {
          pauses.add(row.seconds() - last);
        }
        last = row.seconds();
      }
    }
    pauses.sort(null);
    double usual = pauses.isEmpty() ? Double.POSITIVE_INFINITY : pauses.get(pauses.size() / 2);
    double stated = given.bench().samplePeriodSeconds();
    if (usual <= TOO_COARSE * stated) {
      return Optional.empty();
    }
    return Optional.of(
        "the file has a position every "
            + Numbers.significant(usual, 3)
            + " s, the bench file states "
            + Numbers.plain(stated)
            + " s; if the logger reads no faster, say so in the bench file's sample_period_ms");
  }
}

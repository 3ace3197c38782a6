package org.benchstroke.verdict;

import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.UnitType;
import org.benchstroke.instrument.Role;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;

/**
 * What every test of a record is judged with.
 *
 * @param bench the bench, as the record holds it
 * @param unit the unit type, as the record holds it
 * @param record the record
 * @param logged whether the record is of a trace that was logged elsewhere
 */
record JudgedBench(BenchFile bench, UnitType unit, RunRecord record, boolean logged) {
  static JudgedBench of(BenchFile bench, UnitType unit, RunRecord record) {
    boolean logged = record.events(Event.Imported.class).anyMatch(i -> i.what().equals("trace"));
    return new JudgedBench(bench, unit, record, logged);
  }

  Samples samples() {
    return new Samples(bench, unit);
  }

  /** Whether a person read it, point by point; a trace was logged, whatever the bench file says. */
  boolean byEye(Role role) {
    return !logged && bench.playing(role).map(InstrumentSpec::typedIn).orElse(false);
  }

  PositionBudget budget(Truth truth) {
    return new PositionBudget(bench, unit, truth, byEye(PositionBudget.meter(truth)));
  }
}

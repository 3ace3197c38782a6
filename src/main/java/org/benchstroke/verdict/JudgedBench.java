package org.benchstroke.verdict;

import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.UnitType;
import org.benchstroke.record.RunRecord;

/**
 * What every test of a record is judged with.
 *
 * @param bench the bench, as the record holds it
 * @param unit the unit type, as the record holds it
 * @param record the record
 */
record JudgedBench(BenchFile bench, UnitType unit, RunRecord record) {
  Samples samples() {
    return new Samples(bench, unit);
  }

  PositionBudget budget(Truth truth) {
    return new PositionBudget(bench, unit, truth);
  }
}

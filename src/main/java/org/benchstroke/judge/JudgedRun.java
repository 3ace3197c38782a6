package org.benchstroke.judge;

import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.core.analysis.RestReading;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.benchstroke.unit.UnitType;

/**
 * A record, what was measured from it and how that was judged: a pure function of the record, and
 * all that a report needs. Immutable.
 *
 * @param record the record
 * @param bench the bench, as the record holds it
 * @param unit the unit type, as the record holds it
 * @param procedure the procedure, as the record holds it
 * @param tests what became of each test
 * @param judgements the measures, in the order in which a report shows them
 * @param orders what is as ordered and what isn't
 * @param feedback the readings at rest by the unit's feedback
 * @param stem the readings at rest by the angle reference, % of travel; empty without one
 * @param traces what the measures of dynamic tests were taken from, test after test
 * @param findings what stands out, most important first
 * @param verdict the word for the whole unit
 * @param reason why, in a sentence
 * @param complete whether the run was whole and valid: only then can it pass
 */
public record JudgedRun(
    RunRecord record,
    BenchFile bench,
    UnitType unit,
    Procedure procedure,
    List<TestSummary> tests,
    List<Judgement> judgements,
    List<AsOrdered> orders,
    List<RestReading> feedback,
    List<RestReading> stem,
    List<TestTrace> traces,
    List<Finding> findings,
    Word verdict,
    String reason,
    boolean complete) {
  public JudgedRun {
    tests = List.copyOf(tests);
    judgements = List.copyOf(judgements);
    orders = List.copyOf(orders);
    feedback = List.copyOf(feedback);
    stem = List.copyOf(stem);
    traces = List.copyOf(traces);
    findings = List.copyOf(findings);
  }

  /** Reads traces out of its lines. */
  public Samples samples() {
    return new Samples(bench, unit);
  }

  /** What stands out, a sentence each, most important first. */
  public List<String> sentences() {
    return findings.stream().map(Finding::sentence).toList();
  }

  /** Whether an independent reference has seen the stem. */
  public boolean stemProven() {
    return !stem.isEmpty();
  }

  /** Whether the whole unit passed in a whole, valid run. */
  public boolean passed() {
    return complete && verdict == Word.PASS;
  }

  /** The file that the record was made from; empty for a run of this program. */
  public Optional<Event.Imported> imported() {
    return record.events(Event.Imported.class).findFirst();
  }

  /** Whether anything in the record says that the unit was simulated. */
  public boolean simulated() {
    return new SimulationSigns(record, bench).any();
  }

  /** What was simulated, in words; empty if nothing was. */
  public String simulation() {
    return new SimulationSigns(record, bench).shows();
  }
}

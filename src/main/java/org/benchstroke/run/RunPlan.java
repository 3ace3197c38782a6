package org.benchstroke.run;

import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.Event;
import org.benchstroke.unit.UnitType;

/**
 * What is to be run, and for whom.
 *
 * @param bench the bench
 * @param unit the unit type
 * @param procedure the procedure
 * @param files the three files as they are, in this order
 * @param serial serial number of the unit
 * @param operator who runs it
 * @param order the customer's order
 * @param tool name and version of the program
 * @param job for whom, in what air and what the unit is, if anything was stated
 * @param before what there was before it
 */
public record RunPlan(
    BenchFile bench,
    UnitType unit,
    Procedure procedure,
    List<Event.SourceFile> files,
    String serial,
    String operator,
    String order,
    String tool,
    Optional<Event.Job> job,
    Before before) {
  /** Of a job of which nothing more was stated, and before which there was nothing. */
  public RunPlan(
      BenchFile bench,
      UnitType unit,
      Procedure procedure,
      List<Event.SourceFile> files,
      String serial,
      String operator,
      String order,
      String tool) {
    this(
        bench,
        unit,
        procedure,
        files,
        serial,
        operator,
        order,
        tool,
        Optional.empty(),
        Before.NOTHING);
  }

  /** The same, of which this is stated. */
  public RunPlan of(Optional<Event.Job> stated) {
    return new RunPlan(
        bench, unit, procedure, files, serial, operator, order, tool, stated, before);
  }

  /** The same, after what there was before it. */
  public RunPlan after(Before other) {
    return new RunPlan(bench, unit, procedure, files, serial, operator, order, tool, job, other);
  }

  public RunPlan {
    files = List.copyOf(files);
  }
}

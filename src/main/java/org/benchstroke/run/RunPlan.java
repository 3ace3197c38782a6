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
 * @param job for whom, and in what air, if anything was stated
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
    Optional<Event.Job> job) {
  /** Of a job of which nothing more was stated. */
  public RunPlan(
      BenchFile bench,
      UnitType unit,
      Procedure procedure,
      List<Event.SourceFile> files,
      String serial,
      String operator,
      String order,
      String tool) {
    this(bench, unit, procedure, files, serial, operator, order, tool, Optional.empty());
  }

  public RunPlan {
    files = List.copyOf(files);
  }
}

package org.benchstroke.imported;

import java.time.LocalDate;
import java.util.Optional;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.record.Event;
import org.benchstroke.unit.UnitType;

/**
 * What a file of others is judged with.
 *
 * @param bench what it was recorded with: its accuracies
 * @param benchFile the bench file, whole
 * @param unit the unit type
 * @param unitFile its file, whole
 * @param procedure the procedure that it must show; empty to judge what it shows
 * @param procedureFile its file, whole
 * @param serial serial number of the unit; may be empty
 * @param operator who recorded it; may be empty
 * @param order the customer's order; may be empty
 * @param date the day of the recording, if it is known otherwise than by the file
 * @param tool name and version of this program
 * @param job for whom, and in what air, if anything was stated
 */
public record ImportSetup(
    BenchFile bench,
    Event.SourceFile benchFile,
    UnitType unit,
    Event.SourceFile unitFile,
    Optional<Procedure> procedure,
    Optional<Event.SourceFile> procedureFile,
    String serial,
    String operator,
    String order,
    Optional<LocalDate> date,
    String tool,
    Optional<Event.Job> job) {
  /** Of a job of which nothing more was stated. */
  public ImportSetup(
      BenchFile bench,
      Event.SourceFile benchFile,
      UnitType unit,
      Event.SourceFile unitFile,
      Optional<Procedure> procedure,
      Optional<Event.SourceFile> procedureFile,
      String serial,
      String operator,
      String order,
      Optional<LocalDate> date,
      String tool) {
    this(
        bench,
        benchFile,
        unit,
        unitFile,
        procedure,
        procedureFile,
        serial,
        operator,
        order,
        date,
        tool,
        Optional.empty());
  }
}

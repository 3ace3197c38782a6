package org.benchstroke.setup;

import java.util.List;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.record.Event;
import org.benchstroke.unit.UnitType;

/**
 * What is set up, and for whom. Immutable.
 *
 * @param bench the bench
 * @param unit the unit type
 * @param files both files as they are, in this order
 * @param serial serial number of the unit
 * @param operator who sets it up
 * @param order the customer's order
 * @param tool name and version of the program
 */
public record SetUpPlan(
    BenchFile bench,
    UnitType unit,
    List<Event.SourceFile> files,
    String serial,
    String operator,
    String order,
    String tool) {
  public SetUpPlan {
    files = List.copyOf(files);
  }

  /** The steps that come, by the unit's type and what the bench can see. */
  public List<Step> steps() {
    return Steps.of(unit, Sight.of(bench));
  }
}

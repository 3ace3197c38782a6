package org.benchstroke.jobs;

import java.util.Optional;
import org.benchstroke.record.Label;
import org.benchstroke.record.RunRecord;

/**
 * What a job is told by: records of the same order and the same unit are attempts of one job. It is
 * compared letter by letter, without the blanks at the ends. Immutable.
 *
 * @param order the customer's order
 * @param serial serial number of the unit
 */
public record JobKey(String order, String serial) {
  /**
   * One job's.
   *
   * @throws IllegalArgumentException if one of them is blank: what nobody named belongs nowhere
   */
  public JobKey {
    order = order.strip();
    serial = serial.strip();
    if (order.isEmpty() || serial.isEmpty()) {
      throw new IllegalArgumentException("a job has an order and a serial number");
    }
  }

  /** Empty if one of them is blank. */
  public static Optional<JobKey> of(String order, String serial) {
    return order.isBlank() || serial.isBlank()
        ? Optional.empty()
        : Optional.of(new JobKey(order, serial));
  }

  /** What a record says, as amended; empty if it does not name both. */
  public static Optional<JobKey> of(RunRecord record) {
    return of(record.label(Label.ORDER), record.label(Label.SERIAL));
  }
}

package org.benchstroke.cli;

import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.record.Event;
import picocli.CommandLine.Option;

/** The options that say for whom a unit is tested, and in what air. */
final class JobOptions {
  private static final double COLDEST = -40.0;
  private static final double HOTTEST = 85.0;
  private static final double WETTEST = 100.0;

  @Option(
      names = "--customer",
      paramLabel = "TEXT",
      description = "Who ordered the test; without it the report says \"not stated\".")
  private Optional<String> customer = Optional.empty();

  @Option(
      names = "--ambient-c",
      paramLabel = "NUMBER",
      description = "Temperature at the bench, °C; without it the report says \"not stated\".")
  private Double celsius;

  @Option(
      names = "--humidity-pct",
      paramLabel = "NUMBER",
      description =
          "Relative humidity at the bench, %%; without it the report says \"not stated\".")
  private Double humidity;

  /** Whether any of them was given. */
  boolean any() {
    return customer.isPresent() || celsius != null || humidity != null;
  }

  /**
   * What was stated; empty if nothing was.
   *
   * @throws WrongRequest if it can't be
   */
  Optional<Event.Job> job() throws WrongRequest {
    if (!any()) {
      return Optional.empty();
    }
    if (customer.isPresent()) {
      WrongRequest.requireWords("--customer", customer.get());
    }
    Map<String, Double> air = new TreeMap<>();
    put(air, Event.Job.TEMPERATURE, "--ambient-c", celsius, COLDEST, HOTTEST, "°C");
    put(air, Event.Job.HUMIDITY, "--humidity-pct", humidity, 0.0, WETTEST, "%");
    return Optional.of(new Event.Job(customer.orElse("").strip(), air));
  }

  private static void put(
      Map<String, Double> air,
      String name,
      String option,
      Double value,
      double low,
      double high,
      String unit)
      throws WrongRequest {
    if (value == null) {
      return;
    }
    if (!(value >= low && value <= high)) {
      throw new WrongRequest(
          option
              + ": found "
              + Numbers.plain(value)
              + ", allowed are "
              + (int) low
              + " to "
              + (int) high
              + " "
              + unit);
    }
    air.put(name, value);
  }
}

package org.benchstroke.cli;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import picocli.CommandLine.Option;

/** The options that say for whom a unit is tested, in what air, and what it is. */
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

  @Option(
      names = "--tag",
      paramLabel = "TEXT",
      description = "Where the unit belongs, as the customer names the place.")
  private Optional<String> tag = Optional.empty();

  @Option(
      names = "--actuator-maker",
      paramLabel = "NAME",
      description = "Who made the actuator; its serial number is that of the unit.")
  private Optional<String> actuatorMaker = Optional.empty();

  @Option(names = "--actuator-model", paramLabel = "TEXT", description = "Model of the actuator.")
  private Optional<String> actuatorModel = Optional.empty();

  @Option(names = "--valve-maker", paramLabel = "NAME", description = "Who made the valve.")
  private Optional<String> valveMaker = Optional.empty();

  @Option(names = "--valve-model", paramLabel = "TEXT", description = "Model of the valve.")
  private Optional<String> valveModel = Optional.empty();

  @Option(
      names = "--valve-serial",
      paramLabel = "TEXT",
      description = "Serial number of the valve.")
  private Optional<String> valveSerial = Optional.empty();

  @Option(
      names = "--received",
      paramLabel = "DATE",
      description = "When the unit came in, such as 2026-06-01.")
  private Optional<String> received = Optional.empty();

  /** What was typed, by what it says. */
  private Map<Label, Optional<String>> typed() {
    return Map.of(
        Label.TAG, tag,
        Label.ACTUATOR_MAKER, actuatorMaker,
        Label.ACTUATOR_MODEL, actuatorModel,
        Label.VALVE_MAKER, valveMaker,
        Label.VALVE_MODEL, valveModel,
        Label.VALVE_SERIAL, valveSerial,
        Label.RECEIVED, received);
  }

  /** Whether any of them was given. */
  boolean any() {
    return customer.isPresent()
        || celsius != null
        || humidity != null
        || typed().values().stream().anyMatch(Optional::isPresent);
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
    return Optional.of(new Event.Job(customer.orElse("").strip(), air, facts()));
  }

  private Map<Label, String> facts() throws WrongRequest {
    Map<Label, String> facts = new EnumMap<>(Label.class);
    for (Map.Entry<Label, Optional<String>> each : typed().entrySet()) {
      if (each.getValue().isPresent()) {
        String option = "--" + each.getKey().key().replace('_', '-');
        String text = each.getValue().get().strip();
        WrongRequest.requireWords(option, text);
        if (!each.getKey().fits(text)) {
          throw new WrongRequest(notADate(option, text));
        }
        facts.put(each.getKey(), text);
      }
    }
    return facts;
  }

  /** The only label that not all words fit is a date. */
  static String notADate(String option, String found) {
    return option + ": found \"" + found + "\", allowed is a date such as 2026-06-01";
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

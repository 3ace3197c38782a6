package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.TemperatureRange;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Block.Fact;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RunRecord;

/** Who tested for whom, where and in what air; what nobody stated is called that. Stateless. */
final class JobFacts {
  static final String NOT_STATED = "not stated";

  private JobFacts() {}

  static List<Fact> of(JudgedRun run) {
    List<Fact> facts = new ArrayList<>();
    facts.add(
        new Fact(
            "Laboratory",
            run.bench().laboratory().map(l -> l.name() + ", " + l.address()).orElse(NOT_STATED)));
    facts.add(new Fact("Place of the test", ReportPages.orDash(run.bench().place())));
    facts.add(new Fact("Customer", customer(run).orElse(NOT_STATED)));
    facts.add(new Fact("Order", ReportPages.orDash(run.record().label(Label.ORDER))));
    unit(run.record()).forEach((label, text) -> facts.add(new Fact(title(label), text)));
    facts.add(new Fact("Ambient conditions", air(run)));
    run.record()
        .events(Event.Resumed.class)
        .findFirst()
        .ifPresent(
            from ->
                facts.add(
                    new Fact(
                        "Goes on with the interrupted run",
                        from.record() + ", SHA-256 " + from.sha256())));
    return facts;
  }

  /** What was stated of the unit and its job beyond what every run states, as amended. */
  static Map<Label, String> unit(RunRecord record) {
    Map<Label, String> stated = new EnumMap<>(Label.class);
    for (Label label : Label.values()) {
      if (label.fact() && !record.label(label).isBlank()) {
        stated.put(label, record.label(label));
      }
    }
    return stated;
  }

  private static String title(Label label) {
    return label == Label.SUPERVISOR
        ? "A further attempt allowed by"
        : label.words().substring(0, 1).toUpperCase(Locale.ROOT) + label.words().substring(1);
  }

  static Optional<String> customer(JudgedRun run) {
    return Optional.of(run.record().label(Label.CUSTOMER)).filter(c -> !c.isBlank());
  }

  static Map<String, Double> stated(JudgedRun run) {
    return run.record().events(Event.Job.class).map(Event.Job::air).findFirst().orElse(Map.of());
  }

  private static String air(JudgedRun run) {
    String usual = run.bench().ambient().map(a -> "; the bench file says " + between(a)).orElse("");
    return statedAir(run).orElse(NOT_STATED) + usual;
  }

  /** What was stated of the air, in words. */
  static Optional<String> statedAir(JudgedRun run) {
    List<String> words = new ArrayList<>();
    Optional.ofNullable(stated(run).get(Event.Job.TEMPERATURE))
        .ifPresent(c -> words.add(Numbers.plain(c) + " °C"));
    Optional.ofNullable(stated(run).get(Event.Job.HUMIDITY))
        .ifPresent(h -> words.add(Numbers.plain(h) + " % relative humidity"));
    return words.isEmpty() ? Optional.empty() : Optional.of(String.join(", ", words));
  }

  private static String between(TemperatureRange range) {
    return range.lowCelsius() == range.highCelsius()
        ? Numbers.plain(range.lowCelsius()) + " °C"
        : Numbers.plain(range.lowCelsius()) + " to " + Numbers.plain(range.highCelsius()) + " °C";
  }
}

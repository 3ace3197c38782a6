package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Labels of a record are for people: whatever they say, the same is judged, and the same cause. */
class LabelsTest {
  private static final String EVERY_TEST =
      """
      [[test]]
      test = "exercise"
      strokes = 1
      [[test]]
      test = "stroke time"
      repeats = 1
      [[test]]
      test = "travel error"
      points_pct = [0, 25, 50, 75, 100]
      cycles = 1
      repeats = 3
      [[test]]
      test = "endurance"
      cycles = 10
      [[test]]
      test = "step response"
      at_pct = 50
      sizes_pct = [5, 20]
      [[test]]
      test = "hunting"
      points_pct = [50, 25, 50]
      hold_s = 30
      [[test]]
      test = "ramp"
      from_pct = 20
      to_pct = 80
      stroke_times = 5
      [[test]]
      test = "duty"
      from_pct = 45
      to_pct = 55
      starts_per_hour = 120
      minutes = 5
      [[test]]
      test = "dead band"
      at_pct = [50]
      step_pct = 0.05
      most_pct = 3
      cycles = 2
      [[test]]
      test = "resolution"
      at_pct = [50]
      step_pct = 0.05
      most_pct = 3
      cycles = 2
      [[test]]
      test = "signal loss"
      at_pct = 50
      ways = ["low", "lost", "open loop"]
      """;

  @ParameterizedTest
  @CsvSource({"slack-after-sensor", "dead-band-too-small"})
  void nothingDependsOnALabel(String simulation) {
    RunRecord record = VirtualBench.with(simulation).tests(EVERY_TEST).run();
    List<Entry> nonsense = record.entries().stream().map(LabelsTest::nonsense).toList();
    assertThat(nonsense).isNotEqualTo(record.entries());
    String judged = judged(record);
    // A sentence may quote a label; nothing else may follow from it.
    for (Event.Rested rest : record.events(Event.Rested.class).toList()) {
      judged = judged.replace("(" + rest.label() + ")", "(xyzzy)");
    }
    assertThat(judged(new RunRecord(nonsense, List.of()))).isEqualTo(judged);
  }

  private static String judged(RunRecord record) {
    return new JsonReport().json(new TwinAndCauses(VirtualBench.judge(record)));
  }

  private static Entry nonsense(Entry entry) {
    Event event = entry.event();
    if (event instanceof Event.Rested r) {
      event =
          new Event.Rested(
              "xyzzy",
              r.leg(),
              r.setpointPercent(),
              r.direction(),
              r.cycle(),
              r.settled(),
              r.clean(),
              r.fromNanos(),
              r.toNanos(),
              r.limitPercent());
    } else if (event instanceof Event.Watched w) {
      event =
          new Event.Watched(
              "plugh", w.setpointPercent(), w.whole(), w.reason(), w.fromNanos(), w.toNanos());
    } else if (event instanceof Event.Disturbed d) {
      event =
          new Event.Disturbed(
              "quux", d.currentMilliamps(), d.open(), d.askedNanos(), d.answeredNanos());
    }
    return new Entry(entry.number(), entry.nanos(), entry.utc(), entry.step(), event);
  }
}

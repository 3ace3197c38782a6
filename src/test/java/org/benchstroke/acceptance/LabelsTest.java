package org.benchstroke.acceptance;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.Iterator;
import java.util.List;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunRecord;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What a record says in words is for people: whatever it is, the same is judged, number for number.
 */
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

  private static final String NONSENSE = "xyzzy";

  @ParameterizedTest
  @CsvSource({
    "slack-after-sensor",
    "dead-band-too-small",
    "thermal-drift",
    "wrong-fail-action",
    "two-dead-spots",
    "loop-resistance-too-high"
  })
  void nothingDependsOnALabelOrASentence(String simulation) throws IOException {
    RunRecord record = VirtualBench.with(simulation).tests(EVERY_TEST).run();
    List<Entry> nonsense = record.entries().stream().map(LabelsTest::nonsense).toList();
    assertThat(nonsense).isNotEqualTo(record.entries());
    same("", judged(record), judged(new RunRecord(nonsense, List.of())));
  }

  /** Sentences may quote what a record says; no number, word, cause or place may follow from it. */
  private static void same(String at, JsonNode said, JsonNode quoting) {
    if (said.isContainerNode()) {
      assertThat(quoting.size()).as(at).isEqualTo(said.size());
      Iterator<String> names = said.fieldNames();
      while (names.hasNext()) {
        String name = names.next();
        same(at + "." + name, said.get(name), quoting.get(name));
      }
      for (int i = 0; said.isArray() && i < said.size(); i++) {
        same(at + "[" + i + "]", said.get(i), quoting.get(i));
      }
    } else if (!quoting.asText().contains(NONSENSE)) {
      assertThat(quoting).as(at).isEqualTo(said);
    } else {
      assertThat(said.isTextual()).as(at).isTrue();
    }
  }

  private static JsonNode judged(RunRecord record) throws IOException {
    return new ObjectMapper()
        .readTree(new JsonReport().json(new TwinAndCauses(VirtualBench.judge(record))));
  }

  private static Entry nonsense(Entry entry) {
    return new Entry(
        entry.number(), entry.nanos(), entry.utc(), entry.step(), nonsense(entry.event()));
  }

  /** With nonsense for all that is written for people. */
  private static Event nonsense(Event event) {
    if (event instanceof Event.Rested r) {
      return new Event.Rested(
          NONSENSE,
          r.leg(),
          r.setpointPercent(),
          r.direction(),
          r.cycle(),
          r.settled(),
          r.clean(),
          r.fromNanos(),
          r.toNanos(),
          r.limitPercent());
    }
    if (event instanceof Event.Watched w) {
      String reason = w.reason().isEmpty() ? "" : NONSENSE;
      return new Event.Watched(
          NONSENSE, w.setpointPercent(), w.whole(), reason, w.fromNanos(), w.toNanos());
    }
    if (event instanceof Event.Disturbed d) {
      return new Event.Disturbed(
          NONSENSE, d.currentMilliamps(), d.open(), d.askedNanos(), d.answeredNanos());
    }
    if (event instanceof Event.Checked c) {
      return new Event.Checked(c.check(), c.outcome(), NONSENSE, c.values());
    }
    if (event instanceof Event.Faulted f) {
      return new Event.Faulted(f.fault(), f.instrument(), NONSENSE);
    }
    if (event instanceof Event.TestEnded e) {
      String reason = e.reason().isEmpty() ? "" : NONSENSE;
      return new Event.TestEnded(e.index(), e.test(), e.attempt(), e.outcome(), reason);
    }
    if (event instanceof Event.Cautioned c) {
      return new Event.Cautioned(c.id(), NONSENSE, c.answer());
    }
    if (event instanceof Event.MadeSafe m) {
      return new Event.MadeSafe(m.signalMilliamps(), m.confirmed(), NONSENSE);
    }
    if (event instanceof Event.Closed c) {
      return new Event.Closed(c.how(), c.reason().isEmpty() ? "" : NONSENSE, c.wallSeconds());
    }
    return event instanceof Event.Sampled s
        ? new Event.Sampled(
            s.channel(),
            s.value(),
            s.unit(),
            s.quality(),
            NONSENSE,
            s.askedNanos(),
            s.answeredNanos())
        : event;
  }
}

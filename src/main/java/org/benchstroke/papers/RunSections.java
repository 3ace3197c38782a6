package org.benchstroke.papers;

import static org.benchstroke.papers.ReportPages.orDash;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Samples;
import org.benchstroke.judge.TestSummary;
import org.benchstroke.judge.Truth;
import org.benchstroke.papers.Block.Cell;
import org.benchstroke.papers.Block.Fact;
import org.benchstroke.record.Entry;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordDigest;
import org.benchstroke.unit.UnitType;

/** The parts of a report that tell what was tested and how it went. Stateless. */
final class RunSections {
  private RunSections() {}

  static Section unitAndTest(JudgedRun run, Optional<String> recordFile) {
    UnitType unit = run.unit();
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("Unit, serial number", orDash(run.record().label(Label.SERIAL))));
    facts.add(new Fact("Unit type", orDash(unit.name())));
    facts.addAll(JobFacts.of(run));
    facts.add(new Fact("Operator", orDash(run.record().label(Label.OPERATOR))));
    facts.add(new Fact("Date", ReportPages.date(run)));
    facts.add(new Fact("Bench", orDash(run.bench().name())));
    facts.add(new Fact("Signal range", unit.signal().toString() + action(unit)));
    facts.add(new Fact("Characteristic", unit.characteristic().text()));
    facts.add(new Fact("Feedback range", unit.feedback().toString()));
    facts.add(new Fact("On loss of signal, ordered", loss(unit)));
    facts.add(new Fact("Safe signal", unit.safeSignal().toString()));
    facts.add(
        new Fact(
            "Travel, stroke time",
            Numbers.plain(unit.travelDegrees())
                + "° in "
                + Numbers.plain(unit.strokeSeconds())
                + " s (nominal)"));
    facts.add(
        new Fact(
            "Procedure",
            orDash(run.procedure().name()) + ", version " + orDash(run.procedure().version())));
    facts.add(new Fact("Decision rule", rules(run)));
    facts.add(new Fact("Position known by", truths(run)));
    facts.add(
        new Fact("Position read every", Numbers.plain(run.bench().samplePeriodSeconds()) + " s"));
    facts.add(new Fact("Program", orDash(run.record().opened().tool())));
    run.imported().ifPresent(i -> facts.addAll(source(i)));
    recordFile.ifPresent(file -> facts.add(new Fact("Record", file)));
    run.record().digest().ifPresent(digest -> facts.addAll(record(digest)));
    facts.addAll(SealWords.facts(run.record()));
    return new Section("Unit and test", List.of(new Block.Facts(facts)));
  }

  /** By which anyone can tell whether this page is about a file that they hold. */
  private static List<Fact> record(RecordDigest digest) {
    return List.of(
        new Fact("SHA-256 of the record", digest.sha256()),
        new Fact(
            "Lines of the record, last check value", digest.lines() + ", " + digest.lastCheck()));
  }

  private static List<Fact> source(Event.Imported imported) {
    return List.of(
        new Fact("Recorded elsewhere", imported.what() + ", " + imported.file()),
        new Fact("SHA-256 of that file", imported.sha256()),
        new Fact("Its columns", String.join("; ", imported.columns())));
  }

  private static String action(UnitType unit) {
    return unit.signal().spanMilliamps() < 0.0
        ? ", reversed action (more current closes)"
        : ", direct action (more current opens)";
  }

  private static String loss(UnitType unit) {
    UnitType.SignalLoss loss = unit.signalLoss();
    String move =
        switch (loss.action()) {
          case CLOSE -> "close";
          case OPEN -> "open";
          case STAY -> "stay where it is";
        };
    return move
        + " within "
        + Numbers.plain(loss.delaySeconds())
        + " s; holds at "
        + Numbers.plain(loss.holdsMilliamps().milliamps())
        + " mA, lost at "
        + Numbers.plain(loss.lostMilliamps().milliamps())
        + " mA"
        + loss.highMilliamps()
            .map(high -> " and at " + Numbers.plain(high.milliamps()) + " mA")
            .orElse("");
  }

  private static String rules(JudgedRun run) {
    String rules =
        run.judgements().stream()
            .flatMap(j -> j.limit().stream())
            .map(limit -> limit.rule().text())
            .distinct()
            .collect(Collectors.joining("; "));
    return rules.isEmpty() ? "none: no limit is stated" : rules + ", agreed beforehand";
  }

  private static String truths(JudgedRun run) {
    boolean reference =
        run.judgements().stream()
            .map(Judgement::measure)
            .anyMatch(m -> m.truth() == Truth.STEM && m.value().isPresent());
    if (run.stemProven() && reference) {
      return "the unit's own feedback and an independent angle reference on the stem";
    }
    return reference
        ? "the unit's own feedback; the angle reference saw some of the tests, not those that prove"
            + " the stem"
        : "the unit's own feedback only; stem not proven";
  }

  static Section findings(JudgedRun run) {
    Block block =
        run.findings().isEmpty()
            ? new Block.Paragraph("No findings.")
            : new Block.Bullets(run.sentences());
    return new Section("Findings", List.of(block));
  }

  static Section tests(JudgedRun run) {
    if (run.tests().stream().allMatch(RunSections::atOnce) && !run.tests().isEmpty()) {
      String names = run.tests().stream().map(TestSummary::name).collect(Collectors.joining(", "));
      return new Section(
          "Tests",
          List.of(new Block.Paragraph("All complete, each at the first attempt: " + names + ".")));
    }
    List<List<Cell>> rows = new ArrayList<>();
    for (int i = 0; i < run.tests().size(); i++) {
      TestSummary test = run.tests().get(i);
      boolean done = test.complete();
      rows.add(
          List.of(
              Cell.text(test.name()),
              done ? Cell.text(test.outcome()) : Cell.alarm(test.outcome()),
              Cell.number(Integer.toString(test.attempts())),
              Cell.noted(orDash(test.reason()), earlierAttempts(run, i, test))));
    }
    return Section.of(
        "Tests",
        new Block.Grid(
            "Every test of the procedure; figures of a void test don't count.",
            List.of("Test", "Outcome", "Attempts", "Reason"),
            rows),
        new Block.Paragraph("No test was done.", true));
  }

  private static boolean atOnce(TestSummary test) {
    return test.complete() && test.attempts() == 1;
  }

  /** Attempts before the last one that were not complete: none is hidden. */
  private static String earlierAttempts(JudgedRun run, int index, TestSummary test) {
    return run.record()
        .events(Event.TestEnded.class)
        .filter(e -> e.index() == index && e.test().equals(test.name()))
        .filter(e -> e.attempt() < test.attempts() && !e.outcome().equals("complete"))
        .map(e -> "attempt " + e.attempt() + " " + e.outcome() + ": " + orDash(e.reason()))
        .collect(Collectors.joining("; "));
  }

  static Section faults(JudgedRun run) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Entry entry : run.record().entries()) {
      if (entry.event() instanceof Event.Faulted fault) {
        rows.add(
            List.of(
                Cell.number(Numbers.fixed(Samples.seconds(entry.nanos()), 1) + " s"),
                Cell.text(fault.fault().toString()),
                Cell.text(orDash(fault.instrument())),
                Cell.text(fault.detail())));
      }
    }
    return Section.of(
        "Faults recorded",
        new Block.Grid(
            "Faults, with the time since the run began",
            List.of("Time", "Fault", "Instrument", "What happened"),
            rows),
        new Block.Paragraph("No fault was recorded."));
  }

  static Section safeSignal(JudgedRun run) {
    if (run.imported().isPresent()) {
      return new Section(
          "Safe signal at the end",
          List.of(
              new Block.Paragraph(
                  "Recorded elsewhere: the file doesn't say how the signal was left.")));
    }
    Optional<Event.MadeSafe> last =
        run.record().events(Event.MadeSafe.class).reduce((first, next) -> next);
    Block block =
        last.map(RunSections::safeSignal)
            .orElse(
                new Block.Paragraph(
                    "NOT RECORDED: the record doesn't say that the safe signal was commanded.",
                    true));
    return new Section("Safe signal at the end", List.of(block));
  }

  private static Block safeSignal(Event.MadeSafe safe) {
    String signal = Numbers.plain(safe.signalMilliamps()) + " mA";
    String detail = safe.detail().isBlank() ? "" : " – " + safe.detail();
    return safe.confirmed()
        ? new Block.Paragraph(signal + ", confirmed by the source" + detail)
        : new Block.Paragraph(signal + " commanded, NOT CONFIRMED" + detail, true);
  }

  static Section cautions(JudgedRun run) {
    List<List<Cell>> rows =
        run.record()
            .events(Event.Cautioned.class)
            .map(c -> List.of(Cell.text(c.text()), Cell.text(c.answer())))
            .toList();
    return Section.of(
        "Cautions acknowledged",
        new Block.Grid("Cautions as they were shown", List.of("Caution", "Acknowledged"), rows),
        new Block.Paragraph("No caution was shown."));
  }
}

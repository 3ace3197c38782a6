package org.benchstroke.procedure;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchFit;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.core.toml.TomlDocument;
import org.benchstroke.core.toml.TomlSection;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.Practice.RatioGrade;
import org.benchstroke.unit.UnitType;

/**
 * What does not go together in a bench, a unit type and a procedure: what the preflight would block
 * is a mistake in the bench file, at its line; what would not be done or is worth a thought is a
 * note.
 */
public final class CrossCheck {
  private final TomlDocument document;
  private final BenchFile bench;
  private final UnitType unit;
  private final BenchFit fit;
  private final List<String> notes = new ArrayList<>();

  private CrossCheck(TomlDocument document, BenchFile bench, UnitType unit) {
    this.document = document;
    this.bench = bench;
    this.unit = unit;
    this.fit = new BenchFit(bench, unit);
  }

  /**
   * Checks them together.
   *
   * @param document the bench file's text, for the lines of the mistakes
   * @param bench what was read from it
   * @param procedure the procedure, if there is one
   * @param today the day by which certificates are judged
   * @return notes, a sentence each
   * @throws FileMistakes with everything that would block a run
   */
  public static List<String> of(
      TomlDocument document,
      BenchFile bench,
      UnitType unit,
      Optional<Procedure> procedure,
      LocalDate today)
      throws FileMistakes {
    CrossCheck check = new CrossCheck(document, bench, unit);
    check.source();
    check.feedback();
    check.certificates(today);
    check.ratio();
    procedure.ifPresent(check::tests);
    procedure.ifPresent(check::durations);
    document.finish();
    return List.copyOf(check.notes);
  }

  private TomlSection section(InstrumentSpec spec) {
    return document.root().sections("instrument").get(bench.instruments().indexOf(spec));
  }

  private void source() {
    InstrumentSpec spec = bench.playing(Role.SIGNAL_SOURCE).orElseThrow();
    TomlSection section = section(spec).section("signal_source");
    Channel channel = spec.channels().get(Role.SIGNAL_SOURCE);
    Current lowest = Current.ofMilliamps(channel.low().orElseThrow());
    Current highest = Current.ofMilliamps(channel.high().orElseThrow());
    for (Current current : fit.outOfReach(lowest, highest)) {
      section.mistake(
          current.compareTo(lowest) < 0 ? "min_mA" : "max_mA",
          "the source makes "
              + lowest
              + " to "
              + highest
              + ", but \""
              + unit.name()
              + "\" needs "
              + current
              + "; use another source");
    }
    fit.tooMuchResistance().forEach(words -> section.mistake("compliance_V", words));
  }

  private void feedback() {
    TomlSection section =
        section(bench.playing(Role.POSITION_TRANSMITTER).orElseThrow())
            .section("position_transmitter");
    fit.feedbackCutOff().forEach(words -> section.mistake("", words));
  }

  private void certificates(LocalDate today) {
    for (InstrumentSpec spec : bench.instruments()) {
      if (today.isAfter(spec.calibration().due())) {
        section(spec).mistake("due", "the calibration was due on that day; calibrate it first");
      }
      if (today.isBefore(spec.calibration().calibrated())) {
        section(spec)
            .mistake(
                "calibrated",
                "that day is still to come, by this machine's clock it is "
                    + today
                    + "; set the clock, or this day");
      }
    }
  }

  private void ratio() {
    Optional<Limit> limit = unit.limit(MeasureKind.TRAVEL_ERROR);
    if (limit.isEmpty()) {
      notes.add("No limit on the travel error is stated: it will not be judged.");
      return;
    }
    BenchFit.AccuracyRatio ratio = fit.ratio(limit.get());
    String text = "accuracy ratio " + ratio.text();
    RatioGrade grade = unit.practice().grade(ratio.ratio());
    if (grade == RatioGrade.REFUSED) {
      section(bench.playing(Role.POSITION_TRANSMITTER).orElseThrow())
          .mistake("", text + "; use better instruments");
    } else {
      String wise = grade == RatioGrade.LOW ? "; better instruments would be wise" : "";
      notes.add("A" + text.substring(1) + wise + ".");
    }
  }

  /** What a person plans the day by: at nominal speed, without retakes. */
  private void durations(Procedure procedure) {
    List<PlannedTest> planned = Expansion.of(procedure, unit, bench.samplePeriodSeconds()).tests();
    double all = planned.stream().mapToDouble(PlannedTest::seconds).sum();
    String each =
        planned.stream()
            .map(test -> test.name() + " " + minutes(test.seconds()))
            .collect(Collectors.joining(", "));
    notes.add("\"" + procedure.name() + "\" takes about " + minutes(all) + ": " + each + ".");
  }

  private static String minutes(double seconds) {
    long whole = Math.round(seconds);
    return whole < 60 ? whole + " s" : whole / 60 + " min " + whole % 60 + " s";
  }

  private void tests(Procedure procedure) {
    boolean byEye =
        bench.playing(Role.POSITION_TRANSMITTER).map(InstrumentSpec::typedIn).orElse(false);
    for (TestSpec test : procedure.tests()) {
      notes.addAll(test.notes(unit));
      if (byEye && !test.byEye()) {
        notes.add(
            "Test \"" + test.name() + "\" will not be done: the position is read by a person.");
      } else {
        bench
            .lacking(test.needs())
            .ifPresent(
                why -> notes.add("Test \"" + test.name() + "\" will not be done: " + why + "."));
      }
    }
    if (bench.playing(Role.LOOP_METER).isEmpty()) {
      notes.add("No instrument plays the role \"loop meter\": the setpoint will not be proven.");
    }
    if (bench.playing(Role.ANGLE_REFERENCE).isEmpty()) {
      notes.add("No instrument plays the role \"angle reference\": the stem will not be proven.");
    }
  }
}

package org.benchstroke.diagnosis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.bench.MeasureKind;
import org.benchstroke.quantity.Numbers;
import org.benchstroke.record.Event;
import org.benchstroke.verdict.AsOrdered;
import org.benchstroke.verdict.JudgedRun;
import org.benchstroke.verdict.Judgement;
import org.benchstroke.verdict.Measure;
import org.benchstroke.verdict.Truth;
import org.benchstroke.verdict.Word;

/** Finds the signs of a judged run. A difference within U, or too small to matter, is none. */
final class Signs {
  /** Our choice: what is smaller is of no use to an adjuster. */
  private static final double WORTH_SAYING = 0.3;

  private final JudgedRun run;
  private final List<Evidence> found = new ArrayList<>();

  Signs(JudgedRun run) {
    this.run = run;
  }

  List<Evidence> all() {
    boolean arrived = orders("setpoints").stream().noneMatch(o -> o.word() == Word.FAIL);
    if (arrived) {
      errors();
      losses(); // one that does not come to its setpoints anyway shows nothing by them
    }
    ends();
    holds();
    reversals();
    return List.copyOf(found);
  }

  private void errors() {
    List<Measure> feedback = measures(MeasureKind.TRAVEL_ERROR, Truth.FEEDBACK);
    List<Measure> stem = measures(MeasureKind.TRAVEL_ERROR, Truth.STEM);
    if (feedback.size() < 4) {
      return;
    }
    // Past either end a unit can't go on: the ends say nothing of a constant error.
    Offset own = Offset.of(feedback.stream().filter(Signs::within).toList());
    add(Sign.CONSTANT_ERROR, own.constant(WORTH_SAYING), percent(own.mean()));
    one(MeasureKind.HYSTERESIS_PLUS_DEAD_BAND, Truth.FEEDBACK)
        .ifPresent(
            h -> add(Sign.GOES_PAST, h.value().orElseThrow() < -WORTH_SAYING - half(h), told(h)));
    one(MeasureKind.SPAN_ERROR, Truth.FEEDBACK)
        .ifPresent(
            s -> {
              double span = s.value().orElseThrow();
              boolean grows =
                  Math.abs(span) > WORTH_SAYING + half(s)
                      && Offset.of(feedback).follows(span, WORTH_SAYING / 2.0);
              add(Sign.GROWING_ERROR, grows, told(s));
            });
    if (stem.size() == feedback.size()) {
      stem(feedback, stem, own);
    }
  }

  private void stem(List<Measure> feedback, List<Measure> stem, Offset own) {
    Offset seen = Offset.of(stem.stream().filter(Signs::within).toList());
    if (own.constant(WORTH_SAYING)) {
      add(Sign.STEM_SHARES_CONSTANT, seen.constant(WORTH_SAYING), percent(seen.mean()));
    }
    // A feedback that is off by itself also differs from a stem that is right.
    StemBeside beside = StemBeside.of(feedback, stem);
    StemBeside alone = StemBeside.setpoints(stem);
    boolean lags = beside.lag() > WORTH_SAYING + beside.half();
    add(Sign.STEM_LAGS, lags, percent(beside.lag()));
    if (lags) {
      boolean uneven = beside.seat() > 0.5 * beside.lag() + 2.0 * beside.half();
      add(Sign.STEM_UNEVEN, uneven, percent(beside.seat()) + " more at closed");
    } else {
      boolean seat =
          Math.min(Math.abs(beside.seat()), Math.abs(alone.seat())) > WORTH_SAYING + beside.half();
      add(Sign.STEM_OFF_AT_SEAT, seat, percent(beside.seat()));
    }
    add(
        Sign.STEM_S_SHAPED,
        Math.min(Math.abs(beside.bend()), Math.abs(alone.bend())) > WORTH_SAYING + beside.half(),
        percent(beside.bend()));
    boolean shifted =
        Math.min(Math.abs(beside.mean()), Math.abs(alone.mean())) > 1.0 + beside.half();
    add(Sign.STEM_OFFSET, shifted, percent(beside.mean()));
  }

  private void ends() {
    boolean jumped =
        run.record().events(Event.Faulted.class).anyMatch(f -> f.fault().equals("impossible slew"));
    if (jumped || run.complete()) {
      add(Sign.IMPOSSIBLE_SLEW, jumped, "");
    }
    for (AsOrdered action : orders("action")) {
      if (action.word() != Word.NO_RESULT) {
        boolean opposite = action.word() == Word.FAIL;
        add(Sign.ACTION_OPPOSITE, opposite, action.found());
        if (opposite) {
          add(Sign.STOOD_AT_END, run.reason().contains("it stands still"), "");
        }
      }
    }
    Optional<String> cut =
        run.findings().stream().filter(f -> f.contains("the switch cuts the motor")).findFirst();
    if (cut.isPresent() || run.complete()) {
      add(Sign.STOPS_SHORT_SWITCH_MADE, cut.isPresent(), cut.orElse(""));
    }
    List<AsOrdered> switches =
        orders("switches").stream().filter(o -> o.word() != Word.NO_RESULT).toList();
    if (!switches.isEmpty()) {
      List<AsOrdered> late = failed(switches);
      add(Sign.AUXILIARY_LATE, !late.isEmpty(), late.isEmpty() ? "" : late.get(0).what());
    }
  }

  private void holds() {
    List<AsOrdered> holds =
        orders("hunting at").stream().filter(o -> o.word() != Word.NO_RESULT).toList();
    if (holds.isEmpty()) {
      return;
    }
    List<AsOrdered> moving = failed(holds);
    boolean cycle = moving.stream().anyMatch(o -> o.found().startsWith("limit cycle"));
    String figures = moving.isEmpty() ? "" : moving.get(0).what();
    add(Sign.LIMIT_CYCLE, cycle, cycle ? figures : "");
    if (holds.size() > 2) {
      boolean one = !cycle && moving.size() == 1;
      add(Sign.RESTLESS_AT_ONE_PLACE, one, one ? figures : "");
    }
  }

  private void losses() {
    List<AsOrdered> losses =
        orders("signal loss").stream()
            .filter(o -> o.word() != Word.NO_RESULT && !o.what().endsWith("recovery"))
            .toList();
    if (!losses.isEmpty()) {
      List<AsOrdered> wrong = failed(losses);
      add(
          Sign.WRONG_ON_LOSS,
          !wrong.isEmpty(),
          String.join(", ", wrong.stream().map(AsOrdered::what).toList()));
    }
  }

  /** A step down after one up is a reversal; the first step up is not. */
  private void reversals() {
    List<Measure> times = measures(MeasureKind.DEAD_TIME, Truth.CLOCK);
    for (Measure down : times) {
      if (down.place().equals("10 % down")) {
        times.stream()
            .filter(m -> m.place().equals("10 % up"))
            .findFirst()
            .ifPresent(up -> reversal(up, down));
      }
    }
  }

  private void reversal(Measure up, Measure down) {
    double more = down.value().orElseThrow() - up.value().orElseThrow();
    boolean late = more > 2.0 * Math.hypot(half(up), half(down));
    add(Sign.LATE_AT_REVERSAL, late, Numbers.signed(more, 2) + " s");
  }

  private void add(Sign sign, boolean seen, String figures) {
    found.add(new Evidence(sign, seen, figures));
  }

  private List<AsOrdered> orders(String what) {
    return run.orders().stream().filter(o -> o.what().startsWith(what)).toList();
  }

  private static List<AsOrdered> failed(List<AsOrdered> some) {
    return some.stream().filter(o -> o.word() == Word.FAIL).toList();
  }

  private List<Measure> measures(MeasureKind kind, Truth truth) {
    return run.judgements().stream()
        .map(Judgement::measure)
        .filter(m -> m.kind() == kind && m.truth() == truth)
        .filter(m -> m.value().isPresent() && m.budget().isPresent())
        .toList();
  }

  private Optional<Measure> one(MeasureKind kind, Truth truth) {
    return measures(kind, truth).stream().findFirst();
  }

  private static boolean within(Measure m) {
    return !m.place().startsWith("0 %") && !m.place().startsWith("100 %");
  }

  static double half(Measure m) {
    return m.budget().orElseThrow().expand().half();
  }

  private static String percent(double value) {
    return Numbers.signed(value, 2) + " %";
  }

  private static String told(Measure m) {
    return percent(m.value().orElseThrow()) + " ± " + Numbers.fixed(half(m), 2) + " %";
  }
}

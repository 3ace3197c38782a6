package org.benchstroke.web;

import java.util.List;
import org.benchstroke.app.stations.Driver;
import org.benchstroke.app.stations.Floor;
import org.benchstroke.app.stations.Job;
import org.benchstroke.app.stations.Output;
import org.benchstroke.app.stations.Seen;
import org.benchstroke.app.stations.Station;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.ReportPages;

/**
 * What whoever goes tells whoever comes: each station, how it stands, and what to do next. To be
 * printed and signed. Immutable.
 *
 * @param layout around it
 * @param lines a station each
 */
public record HandOver(Layout layout, List<Line> lines) {
  private static final double SECONDS_A_MINUTE = 60.0;

  public HandOver {
    lines = List.copyOf(lines);
  }

  /**
   * A station.
   *
   * @param letter of it
   * @param shape of it
   * @param unit serial number and order; empty where there is none
   * @param holder who holds it; may be empty
   * @param state how it stands
   * @param output what its source does
   * @param attempts how many there were at this job
   * @param next what is to be done
   */
  public record Line(
      String letter,
      String shape,
      String unit,
      String holder,
      String state,
      String output,
      String attempts,
      String next) {}

  static HandOver of(Floor floor, Layout layout) {
    return new HandOver(layout, floor.stations().stream().map(HandOver::line).toList());
  }

  private static Line line(Station station) {
    Seen seen = station.seen();
    String letter = station.place().letter();
    return new Line(
        letter,
        Shapes.ofStation(letter),
        seen.job().map(j -> j.sheet().serial() + ", order " + j.sheet().order()).orElse(""),
        seen.holder().map(Driver::name).orElse(""),
        Numbers.minusSigns(seen.state()),
        output(seen),
        seen.job().map(HandOver::attempts).orElse(""),
        next(seen));
  }

  private static String output(Seen seen) {
    Output output = seen.running().output();
    return output == Output.QUIET ? "nothing put on" : output.words();
  }

  private static String attempts(Job job) {
    return "attempt " + (job.attempts() + 1);
  }

  private static String next(Seen seen) {
    return switch (seen.stage()) {
      case FREE -> "Scan a unit.";
      case TAKEN -> "Compare and start, or put the job back.";
      case RUNNING ->
          seen.asked()
              .map(a -> "Answer: " + QuestionWords.of(a.question()).title() + ".")
              .orElse(
                  "It runs, about "
                      + Math.max(1, Math.round(seen.running().secondsLeft() / SECONDS_A_MINUTE))
                      + " min of bench time to the end: keep a screen open.");
      case ENDED ->
          seen.ended()
              .flatMap(e -> e.aids())
              .map(a -> afterwards(ReportPages.shown(a.run())))
              .orElse("Run it again.");
    };
  }

  private static String afterwards(Word word) {
    return switch (word) {
      case PASS -> "Passed: take it off, print its papers.";
      case CONDITIONAL_PASS -> "Passed with a condition: ask whether the customer takes it so.";
      case CONDITIONAL_FAIL, FAIL ->
          "Failed: see what to turn on its page, then the same unit again.";
      case NO_RESULT -> "No result: run it again.";
    };
  }
}

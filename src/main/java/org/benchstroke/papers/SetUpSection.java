package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Block.Cell;
import org.benchstroke.record.Event;
import org.benchstroke.setup.Difference;
import org.benchstroke.setup.SetUpState;
import org.benchstroke.setup.SetUpWords;
import org.benchstroke.setup.StepKey;

/** How the unit was set up before the run, as the run's record holds it. Stateless. */
final class SetUpSection {
  private SetUpSection() {}

  static Optional<Event.SetUp> setUp(JudgedRun run) {
    return run.record().events(Event.SetUp.class).findFirst();
  }

  /** None if it was not recorded. */
  static Optional<Section> of(JudgedRun run) {
    return setUp(run).map(setUp -> section(run, setUp));
  }

  private static Section section(JudgedRun run, Event.SetUp setUp) {
    List<Block> blocks = new ArrayList<>();
    for (Difference each : Difference.of(setUp.steps(), run.unit())) {
      blocks.add(new Block.Paragraph("NOT AS ORDERED: " + each.sentence() + ".", true));
    }
    String day = setUp.begunUtc().substring(0, 10);
    if (setUp.how().equals(SetUpState.CAME_SET_UP)) {
      blocks.add(
          new Block.Paragraph(
              "The unit came set up, as " + setUp.operator() + " noted on " + day + "."));
    } else {
      blocks.add(grid(setUp, day));
    }
    blocks.add(
        new Block.Paragraph("Record: " + setUp.record() + ", SHA-256 " + setUp.sha256() + "."));
    return new Section("Set-up before the test", blocks);
  }

  private static Block grid(Event.SetUp setUp, String day) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Event.SetUpStep step : setUp.steps()) {
      String words = SetUpWords.line(step);
      if (!words.isEmpty()) {
        String title = StepKey.of(step.step()).map(StepKey::title).orElse(step.step());
        boolean skipped = step.outcome().equals("skipped");
        rows.add(
            List.of(
                Cell.text(title.substring(0, 1).toUpperCase(Locale.ROOT) + title.substring(1)),
                skipped ? Cell.alarm(step.outcome()) : Cell.text(step.outcome()),
                Cell.text(words)));
      }
    }
    return new Block.Grid(
        "Set up by "
            + setUp.operator()
            + " on "
            + day
            + "; steps with figures, facts or a reason. None of it is judged; U for 95 %.",
        List.of("Step", "", "What was measured or noted"),
        rows);
  }
}

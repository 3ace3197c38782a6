package org.benchstroke.app.stations;

import java.util.Optional;
import java.util.OptionalInt;

/**
 * How a station stands at one moment, whole: whoever comes late sees the same as whoever was there
 * all the time. Immutable.
 *
 * @param version higher with every change
 * @param stage how far it is
 * @param holder who drives it, if anybody does
 * @param job what is on it
 * @param running how the run goes; of one that has ended, how it went
 * @param asked the question that waits, if one does
 * @param countDown seconds until it moves, while they are counted
 * @param stopping whether it was asked to stop and has not ended yet
 * @param ended what came of the run
 */
public record Seen(
    long version,
    Stage stage,
    Optional<Driver> holder,
    Optional<Job> job,
    Running running,
    Optional<Asked> asked,
    OptionalInt countDown,
    boolean stopping,
    Optional<Ended> ended) {
  static final Seen FREE =
      new Seen(
          0,
          Stage.FREE,
          Optional.empty(),
          Optional.empty(),
          Running.nothingYet(),
          Optional.empty(),
          OptionalInt.empty(),
          false,
          Optional.empty());

  /** One sentence for people: what the station does, or waits for. */
  public String state() {
    return switch (stage) {
      case FREE -> "ready for a unit";
      case TAKEN -> "job taken: compare, then start";
      case RUNNING ->
          countDown.isPresent()
              ? "moving in " + countDown.getAsInt()
              : stopping ? "stopping" : asked.isPresent() ? "waiting for you" : running.state();
      case ENDED -> running.state();
    };
  }

  /** Whether it goes on only when a person does something. */
  public boolean needsSomebody() {
    return stage == Stage.RUNNING && asked.isPresent();
  }

  /** Whether a unit is on it. */
  public boolean isOf(String serial) {
    return job.filter(j -> j.sheet().serial().equals(serial.strip())).isPresent();
  }

  Seen at(Stage next) {
    return new Seen(version + 1, next, holder, job, running, asked, countDown, stopping, ended);
  }

  Seen heldBy(Optional<Driver> driver) {
    return new Seen(version + 1, stage, driver, job, running, asked, countDown, stopping, ended);
  }

  Seen with(Optional<Job> taken) {
    return new Seen(version + 1, stage, holder, taken, running, asked, countDown, stopping, ended);
  }

  Seen with(Running goes) {
    return new Seen(version + 1, stage, holder, job, goes, asked, countDown, stopping, ended);
  }

  Seen asking(Optional<Asked> question) {
    return new Seen(version + 1, stage, holder, job, running, question, countDown, stopping, ended);
  }

  Seen counting(OptionalInt seconds) {
    return new Seen(version + 1, stage, holder, job, running, asked, seconds, stopping, ended);
  }

  Seen stopping(boolean asked) {
    return new Seen(version + 1, stage, holder, job, running, this.asked, countDown, asked, ended);
  }

  Seen with(Ended end) {
    return new Seen(
        version + 1, stage, holder, job, running, asked, countDown, stopping, Optional.of(end));
  }

  Seen withoutEnd() {
    return new Seen(
        version + 1,
        stage,
        holder,
        job,
        Running.nothingYet(),
        Optional.empty(),
        OptionalInt.empty(),
        false,
        Optional.empty());
  }
}

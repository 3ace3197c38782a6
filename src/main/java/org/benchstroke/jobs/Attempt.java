package org.benchstroke.jobs;

import java.nio.file.Path;
import java.time.Instant;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.Seal;

/**
 * One run of a procedure on a unit, as a line of its job: what its record and the judgement of that
 * say. Immutable.
 *
 * @param record the record's file
 * @param begun when, by the wall clock
 * @param labels what was stated of the run and its unit, as amended; those that are blank have no
 *     entry
 * @param verdict the word for the unit
 * @param reason why, in a sentence
 * @param whole whether the run was whole and valid, and it is known when it was: only then it
 *     counts as found or as left
 * @param simulated whether the unit was simulated
 * @param imported whether it was recorded elsewhere
 * @param keeping what became of the record
 * @param procedure the procedure's name
 * @param unitType the unit type's name
 */
public record Attempt(
    Path record,
    Instant begun,
    Map<Label, String> labels,
    Word verdict,
    String reason,
    boolean whole,
    boolean simulated,
    boolean imported,
    Keeping keeping,
    String procedure,
    String unitType) {

  /** What became of a record. */
  public enum Keeping {
    /** It is byte for byte what was sealed. */
    SEALED("sealed"),
    /** Nobody can tell whether it is as it was written. */
    UNSEALED("not sealed"),
    /** It has no end: its run was killed, or still goes on. */
    INTERRUPTED("interrupted"),
    /** It is not as it was written. */
    DAMAGED("damaged");

    private final String text;

    Keeping(String text) {
      this.text = text;
    }

    public String text() {
      return text;
    }
  }

  public Attempt {
    labels = Map.copyOf(labels);
  }

  /**
   * Of a judged record.
   *
   * @param file where it is
   */
  public static Attempt of(Path file, JudgedRun run) {
    Map<Label, String> labels = new EnumMap<>(Label.class);
    for (Label label : Label.values()) {
      Optional.of(run.record().label(label))
          .filter(text -> !text.isBlank())
          .ifPresent(text -> labels.put(label, text));
    }
    boolean dated = run.imported().map(Event.Imported::dated).orElse(true);
    return new Attempt(
        file,
        run.record().entries().get(0).utc(),
        labels,
        run.verdict(),
        run.complete() && !dated ? "Not dated: nothing says when it was recorded." : run.reason(),
        run.complete() && dated,
        run.simulated(),
        run.imported().isPresent(),
        keeping(run.record()),
        run.procedure().name(),
        run.unit().name());
  }

  private static Keeping keeping(RunRecord record) {
    if (!record.doubts().isEmpty() || (record.closed().isPresent() && !record.flaws().isEmpty())) {
      return Keeping.DAMAGED;
    }
    if (record.closed().isEmpty()) {
      return Keeping.INTERRUPTED;
    }
    return record.seal().filter(Seal::holds).isPresent() ? Keeping.SEALED : Keeping.UNSEALED;
  }

  /** Which job it belongs to; empty if it does not name order and serial number. */
  public Optional<JobKey> key() {
    return JobKey.of(labels.getOrDefault(Label.ORDER, ""), labels.getOrDefault(Label.SERIAL, ""));
  }

  /**
   * Whether the unit passed without any condition: a conditional pass is none, though its values
   * lie within the limits, since what was agreed is a pass with the uncertainty taken off.
   */
  public boolean passed() {
    return whole && verdict == Word.PASS;
  }
}

package org.benchstroke.record;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Which step of a run a line of its record belongs to. With the procedure and the unit type that
 * the record holds it says what was done and what for: words are for people only.
 *
 * @param test the test's place in the procedure, from 0
 * @param attempt which attempt at it, from 1
 * @param step the place of what is done among all that the test does, from 0
 * @param take how often that was begun, from 1
 */
public record StepId(int test, int attempt, int step, int take) {
  private static final Pattern FORM =
      Pattern.compile("(\\d{1,6})\\.(\\d{1,6})\\.(\\d{1,6})\\.(\\d{1,6})");

  /** As it stands in a line: the four numbers, a point between them. */
  public String text() {
    return test + "." + attempt + "." + step + "." + take;
  }

  /** The step that a text stands for; empty if it stands for none. */
  public static Optional<StepId> of(String text) {
    Matcher matcher = FORM.matcher(text);
    return matcher.matches()
        ? Optional.of(
            new StepId(
                Integer.parseInt(matcher.group(1)),
                Integer.parseInt(matcher.group(2)),
                Integer.parseInt(matcher.group(3)),
                Integer.parseInt(matcher.group(4))))
        : Optional.empty();
  }

  /** The same step, begun once more. */
  public StepId take(int number) {
    return new StepId(test, attempt, step, number);
  }
}

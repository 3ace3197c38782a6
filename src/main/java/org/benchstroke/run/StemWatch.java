package org.benchstroke.run;

import java.util.Optional;
import org.benchstroke.core.quantity.Angle;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.Doubt;
import org.benchstroke.io.instrument.Reading;

/**
 * Sees whether the stem's angle lives: a value that is the same to its last digit while the
 * feedback travels is no longer measured, or its sensor is on no stem. To be asked at rest, when
 * even a slow reference has followed. The runner's thread only.
 */
final class StemWatch {
  /** Far more travel than any slack between feedback and stem, % (own choice). */
  private static final double TRAVEL_PERCENT = 5.0;

  private double lowestPercent = Double.POSITIVE_INFINITY;
  private double highestPercent = Double.NEGATIVE_INFINITY;
  private double latestPercent = Double.NaN;
  private Optional<Angle> latest = Optional.empty();

  void position(Position position) {
    latestPercent = position.percent();
    lowestPercent = Math.min(lowestPercent, latestPercent);
    highestPercent = Math.max(highestPercent, latestPercent);
  }

  /** To follow the position of its round. An angle at the end of its range rightly stays. */
  void angle(Reading<Angle> angle) {
    boolean same = latest.filter(angle.value()::equals).isPresent();
    if (latest.isPresent() && (!same || angle.is(Doubt.SATURATED))) {
      lowestPercent = latestPercent;
      highestPercent = latestPercent;
    }
    latest = Optional.of(angle.value());
  }

  /** What is wrong; empty if nothing is. */
  Optional<String> frozen() {
    double travel = highestPercent - lowestPercent;
    return latest
        .filter(angle -> travel > TRAVEL_PERCENT)
        .map(
            angle ->
                "the stem's angle stayed "
                    + angle
                    + " to the last digit while the feedback travelled "
                    + Numbers.fixed(travel, 1)
                    + " %; check the link, and whether the angle reference is fixed to the stem");
  }
}

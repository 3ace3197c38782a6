package org.benchstroke.run;

import java.util.List;
import org.benchstroke.bench.DisplaySettings;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.io.instrument.LimitSwitch;

/** Which switches a person is asked for: those of the end at which the unit stands. Stateless. */
final class SwitchesByEye {
  private static final double AT_END_PERCENT = 0.01;

  private SwitchesByEye() {}

  /** Of the switches that are looked at, those at the place that was waited for. */
  static List<LimitSwitch> at(Wait wait, InstrumentSpec display) {
    boolean closed = wait.targetPercent() <= AT_END_PERCENT;
    boolean open = wait.targetPercent() >= 100.0 - AT_END_PERCENT;
    return display.talk(DisplaySettings.class).orElseThrow().lookedAt().stream()
        .filter(
            each ->
                switch (each) {
                  case CLOSED, CLOSED_AUXILIARY -> closed;
                  case OPEN, OPEN_AUXILIARY -> open;
                })
        .toList();
  }
}

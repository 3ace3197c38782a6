package org.benchstroke.aids.twin;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Numbers;

/** What is recommended, or why nothing. */
record SettingAdvice(
    Misfit misfit, Optional<Starts> starts, Optional<FittedValue> margin, double onset) {
  OptionalDouble least() {
    return misfit.explained() && starts.isPresent() && now() < onset
        ? OptionalDouble.of(onset)
        : OptionalDouble.empty();
  }

  List<String> words() {
    if (!misfit.explained()) {
      return List.of(unexplained());
    }
    if (starts.isEmpty()) {
      return List.of(
          "No recommendation: the run does not show at which error the motor starts. A dead band"
              + " and a resolution test do.");
    }
    FittedValue is = margin.orElseThrow();
    int decimals = is.half() < 0.01 ? 3 : 2; // an uncertainty of nothing is none
    List<String> words = new ArrayList<>();
    words.add(
        "Margin to hunting: "
            + Numbers.within(is.value(), is.half(), decimals, "% of travel")
            + ".");
    words.add(recommended());
    words.add("An aid, not part of the verdict; the unit's own manual comes first.");
    return words;
  }

  private String recommended() {
    if (onset <= 0.0) {
      return "Coasting can't make it hunt, whatever its start threshold: it stops before its"
          + " setpoint by more than its stops scatter.";
    }
    return now() >= onset
        ? "Clear of hunting: its start threshold (dead band setting) of "
            + Numbers.fixed(now(), 2)
            + " % is more than 20 % beyond where its worst stop may begin to hunt, U included."
        : "Widen its start threshold (dead band setting) to at least "
            + Numbers.fixed(onset, 2)
            + " %: 20 % beyond where its worst stop may begin to hunt, U included.";
  }

  private double now() {
    return starts.orElseThrow().threshold().value();
  }

  private String unexplained() {
    String why =
        misfit.ratio() > Misfit.MOST
            ? "measured and modelled positions differ by "
                + Numbers.fixed(misfit.ratio(), 1)
                + " times what noise, stops and instants explain (at most "
                + Numbers.plain(Misfit.MOST)
                + ")"
            : "its stops scatter by "
                + Numbers.fixed(misfit.stopScatterPercent(), 2)
                + " %, more than a controller's period and the noise explain ("
                + Numbers.fixed(misfit.mayScatterPercent(), 2)
                + " %)";
    return "No recommendation: the model does not explain this unit; " + why + ".";
  }
}

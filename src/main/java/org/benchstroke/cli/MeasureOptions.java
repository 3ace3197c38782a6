package org.benchstroke.cli;

import java.util.Optional;
import org.benchstroke.app.history.MeasureChoice;
import org.benchstroke.app.history.Naming;
import picocli.CommandLine.Option;

/** The options that say which measure a statistic is of: one kind, at one place, by one truth. */
final class MeasureOptions {
  @Option(
      names = "--measure",
      required = true,
      paramLabel = "KEY",
      description = "The measure, by its key in a unit type file: dead_band_pct.")
  private String measure = "";

  @Option(
      names = "--place",
      paramLabel = "ID",
      description =
          "Where it was taken, as in the archive: \"side 50 up\"; an empty text for the whole unit."
              + " Needed where there are several.")
  private Optional<String> place = Optional.empty();

  @Option(
      names = "--truth",
      paramLabel = "TEXT",
      description =
          "By what it was known: feedback, stem, \"bench clock\" or \"bench meter\". Needed where"
              + " there are several.")
  private Optional<String> truth = Optional.empty();

  MeasureChoice chosen() {
    return new MeasureChoice(measure, place, truth, Naming.OPTIONS);
  }
}

package org.benchstroke.web.desk;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.ChosenRuns;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.Archive.Names;
import org.benchstroke.web.Refusal;
import org.benchstroke.web.Visit;

/**
 * The fields that say which runs a page is of, as they stand in its address. Immutable.
 *
 * @param query what was asked
 * @param runs the runs that are chosen
 * @param names what there is to choose from
 */
public record Filters(Query query, ChosenRuns runs, Names names) {
  private static final String[] FIELDS = {
    "serial", "type", "bench", "operator", "since", "until", "runs"
  };
  private static final String SIMULATED = "simulated";

  /**
   * Of a request.
   *
   * @param more further fields that the page has
   */
  static Filters of(Visit visit, Books books, String... more) throws Refusal, WrongRequest {
    String[] all = Arrays.copyOf(FIELDS, FIELDS.length + more.length);
    System.arraycopy(more, 0, all, FIELDS.length, more.length);
    return new Filters(Query.of(visit, all), runs(visit), books.ask(Archive::names));
  }

  /** The runs that a request is about: on a screen that shows nothing real, simulated ones. */
  static ChosenRuns runs(Visit visit) {
    return new ChosenRuns(
        visit.query("serial"),
        visit.query("type"),
        visit.query("bench"),
        visit.query("operator"),
        visit.query("since"),
        visit.query("until"),
        simulated(visit));
  }

  static boolean simulated(Visit visit) {
    return visit
        .query("runs")
        .map(SIMULATED::equals)
        .orElseGet(() -> visit.layout("", "").simulated());
  }

  /** What was chosen of a field; empty for all. */
  public String get(String field) {
    return query.get(field);
  }

  /** What there is to choose from in a field. */
  public List<String> choices(String field) {
    return switch (field) {
      case "type" -> names.unitTypes();
      case "bench" -> names.benches();
      case "operator" -> names.operators();
      default -> List.of();
    };
  }

  /** A number in a field; empty without one. */
  static Optional<Double> number(Visit visit, String field) throws WrongRequest {
    Optional<String> text = visit.query(field);
    try {
      return text.map(t -> Double.valueOf(t.replace(',', '.').replace('\u2212', '-')));
    } catch (NumberFormatException e) {
      throw new WrongRequest(field + ": found \"" + text.orElse("") + "\", allowed is a number");
    }
  }
}

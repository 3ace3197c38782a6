package org.benchstroke.web.desk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.app.Setting;
import org.benchstroke.app.Shelf.Kept;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.procedure.Caution;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.procedure.PlannedTest;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.UnitType;
import org.benchstroke.web.Layout;
import org.benchstroke.web.Pages;
import org.benchstroke.web.Refusal;
import org.benchstroke.web.Right;
import org.benchstroke.web.Routes;
import org.benchstroke.web.Visit;

/** Procedures with the time that they take, and unit types with their limits. Any thread. */
public final class FilePages implements Pages {
  static final String FILE = "/desk/file/";

  /** What durations are computed for: it bears on them little. */
  private static final double SAMPLE_PERIOD_SECONDS = 0.05;

  private static final String NONE =
      "There is no such file where this screen looks: in the folders of the files that the shop file"
          + " names.";

  private final Holdings holdings;

  FilePages(Holdings holdings) {
    this.holdings = holdings;
  }

  @Override
  public void register(Routes routes) {
    routes.get(Links.PROCEDURES, Right.READ, this::procedures);
    routes.get(Links.PROCEDURES + "/{file}", Right.READ, this::procedure);
    routes.get(Links.UNIT_TYPES, Right.READ, this::unitTypes);
    routes.get(Links.UNIT_TYPES + "/{file}", Right.READ, this::unitType);
    routes.get(FILE + "{file}", Right.READ, this::download);
  }

  private static <T> Kept<T> named(List<Kept<T>> all, String name) throws Refusal {
    return all.stream()
        .filter(kept -> kept.name().equals(name))
        .findFirst()
        .orElseThrow(
            () ->
                Refusal.notThere(
                    "There is no file of this name where this screen looks: in the folders of the"
                        + " files that the shop file names."));
  }

  /** Files by their names alone: nothing of an address becomes a path. */
  private void download(Visit visit) throws Exception {
    List<Path> all =
        Stream.of(
                holdings.files().benches(),
                holdings.files().unitTypes(),
                holdings.files().procedures())
            .flatMap(List::stream)
            .map(Kept::file)
            .toList();
    String name = visit.path("file");
    Path file =
        all.stream()
            .filter(each -> each.getFileName().toString().equals(name))
            .findFirst()
            .orElseThrow(() -> Refusal.notThere("There is no file of this name."));
    visit.download(name, "application/toml; charset=utf-8", Files.readAllBytes(file));
  }

  /**
   * A list of files.
   *
   * @param table a row each
   */
  public record ListPage(Layout layout, Table table) {}

  private void procedures(Visit visit) throws Exception {
    Optional<UnitType> type = chosen(visit).flatMap(Kept::value);
    List<List<Cell>> rows = new ArrayList<>();
    for (Kept<Procedure> kept : holdings.files().procedures()) {
      Optional<Procedure> procedure = kept.value();
      String href = Links.PROCEDURES + "/" + Query.encoded(kept.name());
      rows.add(
          List.of(
              Cell.link(procedure.map(Procedure::name).orElse(kept.name()), href),
              Cell.text(procedure.map(Procedure::version).orElse("its file has mistakes")),
              Cell.count(procedure.map(p -> p.tests().size()).orElse(0)),
              procedure.isPresent() && type.isPresent()
                  ? seconds(expanded(procedure.get(), type.get()).seconds())
                  : Cell.noFigure()));
    }
    String of = type.map(t -> ", for " + t.name()).orElse("");
    Table table =
        new Table(
            "Procedures, with the time that they take at nominal speed" + of,
            List.of("Procedure", "Version", "Tests", "Takes about"),
            rows,
            NONE);
    visit.show(
        "web/desk/files.jte", new ListPage(visit.layout("Procedures", BenchPages.KEY), table));
  }

  private static Cell seconds(double seconds) {
    return Cell.figure(seconds, Words.minutes(seconds));
  }

  private static Expansion expanded(Procedure procedure, UnitType type) {
    return Expansion.of(procedure, type, SAMPLE_PERIOD_SECONDS);
  }

  /** The unit type that the address names; else the shop's, else the first that there is. */
  private Optional<Kept<UnitType>> chosen(Visit visit) throws Refusal, IOException {
    List<Kept<UnitType>> all = holdings.files().unitTypes();
    Optional<String> asked = visit.query("type");
    if (asked.isPresent()) {
      return Optional.of(named(all, asked.get()));
    }
    Optional<String> shops =
        holdings.file(Setting.UNIT_TYPE).map(file -> file.getFileName().toString());
    return all.stream()
        .filter(kept -> shops.equals(Optional.of(kept.name())))
        .findFirst()
        .or(() -> all.stream().filter(kept -> kept.value().isPresent()).findFirst());
  }

  /**
   * A procedure.
   *
   * @param file name of its file
   * @param procedure what that says; empty if it has mistakes
   * @param flaws the mistakes
   * @param type for which it is expanded
   * @param types to choose from
   * @param plan a row for each test
   * @param takes all of it, in words
   * @param notes what is worth a thought with this unit type
   */
  public record ProcedurePage(
      Layout layout,
      String file,
      Optional<Procedure> procedure,
      List<String> flaws,
      Optional<Kept<UnitType>> type,
      List<Kept<UnitType>> types,
      Table plan,
      String takes,
      List<String> notes) {
    /** Where the file itself is. */
    public String download() {
      return FILE + Query.encoded(file);
    }
  }

  private void procedure(Visit visit) throws Exception {
    Kept<Procedure> kept = named(holdings.files().procedures(), visit.path("file"));
    Optional<Kept<UnitType>> type = chosen(visit);
    List<String> notes = new ArrayList<>();
    List<List<Cell>> rows = new ArrayList<>();
    String takes = "";
    if (kept.value().isPresent() && type.flatMap(Kept::value).isPresent()) {
      UnitType unit = type.flatMap(Kept::value).get();
      Expansion expansion = expanded(kept.value().get(), unit);
      expansion.tests().forEach(test -> rows.add(row(test)));
      kept.value().get().tests().forEach(test -> notes.addAll(test.notes(unit)));
      takes = Words.minutes(expansion.seconds());
    }
    Table plan =
        new Table(
            "The tests, in order; the preflight comes before them",
            List.of("No.", "Test", "Takes about", "Steps", "Needs", "Before it is said"),
            rows,
            "Without a unit type there is no plan.");
    visit.show(
        "web/desk/procedure.jte",
        new ProcedurePage(
            visit.layout(kept.value().map(Procedure::name).orElse(kept.name()), BenchPages.KEY),
            kept.name(),
            kept.value(),
            kept.flaw().lines().toList(),
            type,
            holdings.files().unitTypes(),
            plan,
            takes,
            notes));
  }

  private static List<Cell> row(PlannedTest test) {
    String needs = test.test().needs().stream().map(Role::key).collect(Collectors.joining(", "));
    return List.of(
        Cell.count(test.index() + 1L),
        Cell.text(test.name()),
        seconds(test.seconds()),
        Cell.count(test.actions().size()),
        Cell.text(Words.orDash(needs)),
        Cell.text(test.test().caution().map(Caution::text).orElse("–")));
  }

  private void unitTypes(Visit visit) throws Exception {
    List<List<Cell>> rows = new ArrayList<>();
    for (Kept<UnitType> kept : holdings.files().unitTypes()) {
      Optional<UnitType> type = kept.value();
      String href = Links.UNIT_TYPES + "/" + Query.encoded(kept.name());
      rows.add(
          List.of(
              Cell.link(type.map(UnitType::name).orElse(kept.name()), href),
              Cell.text(type.map(t -> t.drive().key()).orElse("its file has mistakes")),
              Cell.text(type.map(t -> t.signal().toString()).orElse("–")),
              type.map(t -> Cell.figure(t.strokeSeconds(), Words.minutes(t.strokeSeconds())))
                  .orElse(Cell.noFigure()),
              Cell.count(type.map(t -> t.limits().size()).orElse(0))));
    }
    Table table =
        new Table(
            "Unit types", List.of("Unit type", "Drive", "Signal", "Stroke", "Limits"), rows, NONE);
    visit.show(
        "web/desk/files.jte", new ListPage(visit.layout("Unit types", BenchPages.KEY), table));
  }

  /**
   * A unit type.
   *
   * @param file name of its file
   * @param type what that says; empty if it has mistakes
   * @param flaws the mistakes
   * @param facts a row each
   * @param limits a row each
   */
  public record UnitTypePage(
      Layout layout,
      String file,
      Optional<UnitType> type,
      List<String> flaws,
      Table facts,
      Table limits) {
    /** Where the file itself is. */
    public String download() {
      return FILE + Query.encoded(file);
    }

    /** Whether it is driven by air. */
    public boolean pneumatic() {
      return type.map(t -> t.drive() == UnitType.Drive.PNEUMATIC).orElse(false);
    }
  }

  private void unitType(Visit visit) throws Exception {
    Kept<UnitType> kept = named(holdings.files().unitTypes(), visit.path("file"));
    List<List<Cell>> facts = new ArrayList<>();
    List<List<Cell>> limits = new ArrayList<>();
    kept.value().ifPresent(type -> facts(type, facts));
    for (Limit limit : kept.value().map(UnitType::limits).orElse(List.of())) {
      limits.add(
          List.of(
              Cell.link(limit.measure().title(), Links.measure(limit.measure().key())),
              Cell.text(limit.text()),
              Cell.text(limit.rule().text())));
    }
    visit.show(
        "web/desk/unit-type.jte",
        new UnitTypePage(
            visit.layout(kept.value().map(UnitType::name).orElse(kept.name()), BenchPages.KEY),
            kept.name(),
            kept.value(),
            kept.flaw().lines().toList(),
            new Table("What it is", List.of("Fact", "Value"), facts, ""),
            new Table(
                "Agreed limits",
                List.of("Measure", "Limit", "Rule"),
                limits,
                "No limit was agreed: nothing will be judged.")));
  }

  private static void facts(UnitType type, List<List<Cell>> rows) {
    fact(rows, "drive", type.drive().key());
    fact(rows, "travel", Numbers.plain(type.travelDegrees()) + "°");
    fact(rows, "stroke time", Words.minutes(type.strokeSeconds()));
    fact(rows, "signal range", type.signal().toString());
    fact(rows, "feedback range", type.feedback().toString());
    fact(rows, "safe signal", type.safeSignal().toString());
    fact(rows, "on loss of signal", type.signalLoss().action().key());
    fact(rows, "dead band setting", Numbers.plain(type.deadBandPercent()) + " %");
    type.switches()
        .forEach((which, angle) -> fact(rows, "switch, " + which.key(), angle.toString()));
  }

  private static void fact(List<List<Cell>> rows, String name, String value) {
    rows.add(List.of(Cell.text(name), Cell.text(value)));
  }
}

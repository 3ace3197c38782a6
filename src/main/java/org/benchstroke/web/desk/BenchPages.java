package org.benchstroke.web.desk;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.ReentrantLock;
import java.util.stream.Collectors;
import org.benchstroke.app.BenchChecks;
import org.benchstroke.app.BenchChecks.Checked;
import org.benchstroke.app.BenchLinks;
import org.benchstroke.app.Setting;
import org.benchstroke.app.Shelf.Kept;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.DueDates;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.BenchText;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.commission.RoleState;
import org.benchstroke.commission.RoleVerdict;
import org.benchstroke.commission.Survey;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.ReportPage;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.procedure.CrossCheck;
import org.benchstroke.procedure.Procedure;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.UnitType;
import org.benchstroke.unit.UnitTypeReader;
import org.benchstroke.web.Layout;
import org.benchstroke.web.Pages;
import org.benchstroke.web.Refusal;
import org.benchstroke.web.Right;
import org.benchstroke.web.Routes;
import org.benchstroke.web.Visit;

/** The benches with their instruments, what falls due, and how each bench answers now. */
public final class BenchPages implements Pages {
  static final String KEY = "bench";
  private static final String DUE = "/desk/due";
  private static final double PROBE_SECONDS = 3.0;
  private static final int SOON_DAYS = 30;

  private final Holdings holdings;
  private final Books books;

  /** One probe at a time, whoever asks. */
  private final ReentrantLock probing = new ReentrantLock();

  BenchPages(Holdings holdings, Books books) {
    this.holdings = holdings;
    this.books = books;
  }

  @Override
  public void register(Routes routes) {
    routes.get(Links.BENCHES, Right.READ, this::list);
    routes.get(Links.BENCHES + "/{file}", Right.READ, this::bench);
    routes.post(Links.BENCHES + "/{file}/probe", Right.DRIVE, this::probe);
    routes.get(DUE, Right.READ, this::due);
  }

  @Override
  public List<Way> ways() {
    return List.of(new Way(KEY, Links.BENCHES, "Benches"));
  }

  private static LocalDate today() {
    return LocalDate.ofInstant(SystemClock.realTime().utc(), ZoneOffset.UTC);
  }

  /**
   * The benches.
   *
   * @param benches a row for each bench file
   * @param none whether there is no folder of files at all
   */
  public record ListPage(Layout layout, Table benches, boolean none) {}

  private void list(Visit visit) throws Exception {
    List<List<Cell>> rows = new ArrayList<>();
    for (Kept<BenchFile> kept : holdings.files().benches()) {
      rows.add(kept.value().isPresent() ? row(kept, kept.value().get()) : broken(kept));
    }
    Table table =
        new Table(
            "Bench files",
            List.of("Bench", "Place", "Instruments", "Next due", "Its own check"),
            rows,
            "There is no bench file where this screen looks.");
    visit.show(
        "web/desk/benches.jte",
        new ListPage(visit.layout("Benches", KEY), table, holdings.files().folders().isEmpty()));
  }

  private List<Cell> row(Kept<BenchFile> kept, BenchFile bench) throws IOException {
    Optional<DueDates.Line> next =
        DueDates.soon(DueDates.of(bench), today(), Integer.MAX_VALUE / 2).stream().findFirst();
    return List.of(
        Cell.link(bench.name(), Links.BENCHES + "/" + Query.encoded(kept.name())),
        Cell.text(bench.place()),
        Cell.count(bench.instruments().size()),
        next.map(line -> left(line)).orElse(Cell.text("–")),
        check(bench));
  }

  private static List<Cell> broken(Kept<BenchFile> kept) {
    return List.of(
        Cell.link(kept.name(), Links.BENCHES + "/" + Query.encoded(kept.name())),
        Cell.text("its file has mistakes"),
        Cell.noFigure(),
        Cell.text("–"),
        Cell.text("–"));
  }

  private static Cell left(DueDates.Line line) {
    Optional<Long> days = line.days(today());
    Word word =
        days.isEmpty()
            ? Word.NO_RESULT
            : days.get() < 0
                ? Word.FAIL
                : days.get() <= SOON_DAYS ? Word.CONDITIONAL_PASS : Word.PASS;
    return Cell.marked(
        ReportPage.key(word), Words.left(days), days.map(String::valueOf).orElse(""));
  }

  /** The worst of its references, in a few words. */
  private Cell check(BenchFile bench) throws IOException {
    List<Checked> judged;
    try {
      judged = checked(bench);
    } catch (WrongRequest e) {
      return Cell.text("can't be read");
    }
    Optional<Checked> worst = judged.stream().reduce((a, b) -> severity(a) >= severity(b) ? a : b);
    return worst
        .map(each -> Cell.marked(Words.mark(each.check().state()), each.words(), each.words()))
        .orElse(Cell.text("none yet"));
  }

  private static int severity(Checked each) {
    String mark = Words.mark(each.check().state());
    return List.of("pass", "no-result", "conditional-pass", "fail").indexOf(mark);
  }

  private List<Checked> checked(BenchFile bench) throws IOException, WrongRequest {
    BenchChecks checks = new BenchChecks(holdings.records());
    return BenchChecks.judged(checks.of(bench.name(), bench.simulation().isPresent()));
  }

  /**
   * A bench.
   *
   * @param file name of its file
   * @param bench what that says; empty if it has mistakes
   * @param flaws the mistakes, or what would block a run with the shop's unit type
   * @param notes what is worth a thought with the shop's unit type and procedure
   * @param instruments a row each
   * @param checks a row for each reference of its own
   * @param stopped that it must not test; empty if it may
   * @param drawings a chart for each reference
   * @param probed what a probe just saw
   */
  public record BenchPage(
      Layout layout,
      String file,
      Optional<BenchFile> bench,
      List<String> flaws,
      List<String> notes,
      Table instruments,
      Table checks,
      String stopped,
      List<Drawing> drawings,
      Optional<Probed> probed) {
    /** Where its probe is asked for. */
    public String probe() {
      return Links.BENCHES + "/" + Query.encoded(file) + "/probe";
    }

    /** Where the file itself is. */
    public String download() {
      return FilePages.FILE + Query.encoded(file);
    }
  }

  /**
   * What a probe saw.
   *
   * @param sound whether every role answers soundly
   * @param roles a row each
   */
  public record Probed(boolean sound, Table roles) {}

  private Kept<BenchFile> kept(String name) throws Refusal, IOException {
    return holdings.files().benches().stream()
        .filter(kept -> kept.name().equals(name))
        .findFirst()
        .orElseThrow(
            () ->
                Refusal.notThere(
                    "There is no bench file of this name where this screen looks. The page of the"
                        + " benches lists those that there are."));
  }

  private void bench(Visit visit) throws Exception {
    show(visit, kept(visit.path("file")), Optional.empty());
  }

  private void show(Visit visit, Kept<BenchFile> kept, Optional<Probed> probed) throws Exception {
    List<String> flaws = new ArrayList<>(kept.flaw().lines().toList());
    List<String> notes = new ArrayList<>();
    List<Checked> judged = List.of();
    if (kept.value().isPresent()) {
      together(kept.file(), kept.value().get(), flaws, notes);
      judged = checked(kept.value().get());
    }
    boolean stopped = judged.stream().anyMatch(Checked::stops);
    String title = kept.value().map(BenchFile::name).orElse(kept.name());
    visit.show(
        "web/desk/bench.jte",
        new BenchPage(
            visit.layout(title, KEY),
            kept.name(),
            kept.value(),
            flaws,
            notes,
            instruments(kept.value()),
            references(judged),
            stopped ? BenchChecks.STOPPED : "",
            kept.value().isPresent() ? BenchChecks.drawings(kept.value().get(), judged) : List.of(),
            probed));
  }

  /** With the unit type and the procedure that the shop names. */
  private void together(Path file, BenchFile bench, List<String> flaws, List<String> notes) {
    Optional<Path> unit = holdings.file(Setting.UNIT_TYPE);
    if (unit.isEmpty()) {
      return;
    }
    try {
      Optional<Path> named = holdings.file(Setting.PROCEDURE);
      Optional<Procedure> procedure =
          named.isEmpty() ? Optional.empty() : Optional.of(ProcedureReader.read(named.get()));
      UnitType type = UnitTypeReader.read(unit.get());
      notes.addAll(CrossCheck.of(BenchText.of(file).document(), bench, type, procedure, today()));
    } catch (FileMistakes e) {
      flaws.addAll(e.getMessage().lines().toList());
    }
  }

  private static Table instruments(Optional<BenchFile> bench) {
    List<List<Cell>> rows = new ArrayList<>();
    for (InstrumentSpec spec : bench.map(BenchFile::instruments).orElse(List.of())) {
      DueDates.Line line =
          DueDates.of(bench.orElseThrow()).stream()
              .filter(each -> each.name().equals(spec.name()))
              .findFirst()
              .orElseThrow();
      rows.add(
          List.of(
              Cell.text(spec.name()),
              Cell.text(spec.roles().stream().map(Role::key).collect(Collectors.joining(", "))),
              Cell.text(Words.orDash(line.identity())),
              Cell.text(Words.orDash(spec.serial())),
              Cell.text(Words.orDash(spec.calibration().certificate())),
              Cell.text(spec.calibration().due().toString()),
              left(line),
              Cell.text(spec.typedIn() ? "read by eye" : spec.endpoint().text())));
    }
    return new Table(
        "Instruments",
        List.of(
            "Instrument", "Roles", "Model", "Serial", "Certificate", "Due", "Left", "Reached at"),
        rows,
        "");
  }

  private static Table references(List<Checked> judged) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Checked each : judged) {
      boolean known = !Double.isNaN(each.check().centre());
      rows.add(
          List.of(
              Cell.text(each.reference()),
              Cell.marked(Words.mark(each.check().state()), each.words(), each.words()),
              Cell.count(each.count()),
              Cell.figure(each.newest(), Numbers.significant(each.newest(), 5)),
              known
                  ? Cell.figure(
                      each.check().centre(), Numbers.significant(each.check().centre(), 5))
                  : Cell.noFigure(),
              known
                  ? Cell.figure(each.check().sigma(), Numbers.significant(each.check().sigma(), 2))
                  : Cell.noFigure()));
    }
    return new Table(
        "The bench's own check, by reference",
        List.of("Reference", "It says", "Readings", "Newest", "Baseline", "σ"),
        rows,
        "No check of this bench yet: the command bench-check makes one.");
  }

  /** Opens every instrument, asks and reads: nothing is sourced, nothing is switched. */
  private void probe(Visit visit) throws Exception {
    Kept<BenchFile> kept = kept(visit.path("file"));
    BenchFile bench =
        kept.value()
            .orElseThrow(
                () -> Refusal.wrong("Its file has mistakes: put them right first. " + kept.flaw()));
    if (!probing.tryLock()) {
      throw Refusal.notNow("A probe goes on already. Wait until it has ended, some seconds.");
    }
    try {
      show(visit, kept, Optional.of(probed(bench)));
    } finally {
      probing.unlock();
    }
  }

  private Probed probed(BenchFile bench) throws WrongRequest, InterruptedException {
    BenchClock clock = holdings.clocks().apply(bench);
    BenchLinks.Wanted wanted = BenchLinks.Wanted.of(bench, "a probe from the bench screen");
    try (BenchLinks links = BenchLinks.of(wanted, Optional.empty(), warning -> {});
        Survey survey = new Survey(bench, unitType(), links.opener(), clock)) {
      survey.open();
      survey.watch(PROBE_SECONDS, new StopSwitch(), states -> {});
      List<RoleVerdict> verdicts = survey.verdicts();
      return new Probed(verdicts.stream().allMatch(RoleVerdict::ok), roles(survey, verdicts));
    }
  }

  /** So that a position in mA is shown in percent, too. */
  private Optional<UnitType> unitType() {
    try {
      Optional<Path> named = holdings.file(Setting.UNIT_TYPE);
      return named.isEmpty() ? Optional.empty() : Optional.of(UnitTypeReader.read(named.get()));
    } catch (FileMistakes e) {
      return Optional.empty();
    }
  }

  private static Table roles(Survey survey, List<RoleVerdict> verdicts) {
    List<RoleState> states = survey.states();
    List<List<Cell>> rows = new ArrayList<>();
    for (int i = 0; i < verdicts.size(); i++) {
      RoleVerdict verdict = verdicts.get(i);
      Optional<RoleState> state = i < states.size() ? Optional.of(states.get(i)) : Optional.empty();
      String mark = ReportPage.key(verdict.ok() ? Word.PASS : Word.FAIL);
      rows.add(
          List.of(
              Cell.text(verdict.instrument()),
              Cell.text(verdict.role().key()),
              Cell.marked(mark, verdict.ok() ? "sound" : "NOT SOUND", verdict.ok()),
              Cell.text(state.map(RoleState::value).map(Words::orDash).orElse("–")),
              state.map(s -> Words.figure(s.roundTripMillis(), 3)).orElse(Cell.noFigure()),
              Cell.text(verdict.words())));
    }
    return new Table(
        "What each role answered, some seconds ago",
        List.of("Instrument", "Role", "State", "Value", "Answers in, ms", "What was seen"),
        rows,
        "");
  }

  /**
   * What falls due.
   *
   * @param lines the most urgent first
   * @param overdue how many must not be used any more
   * @param query what was asked
   */
  public record DuePage(Layout layout, Table lines, long overdue, Query query) {
    /** The address of the list as a file. */
    public String file() {
      return query.with("as", "csv").on(DUE);
    }
  }

  private void due(Visit visit) throws Exception {
    List<DueDates.Line> all = new ArrayList<>();
    for (Kept<BenchFile> kept : holdings.files().benches()) {
      kept.value().ifPresent(bench -> all.addAll(DueDates.of(bench)));
    }
    List<String> known = all.stream().map(DueDates.Line::bench).distinct().toList();
    for (DueDates.Line line : archived()) {
      if (!known.contains(line.bench())) {
        all.add(line);
      }
    }
    int days = Filters.number(visit, "days").map(Double::intValue).orElse(Integer.MAX_VALUE / 2);
    List<DueDates.Line> soon = DueDates.soon(all, today(), days);
    List<List<Cell>> rows = new ArrayList<>();
    for (DueDates.Line line : soon) {
      rows.add(
          List.of(
              left(line),
              Cell.text(line.due().map(LocalDate::toString).orElse("not readable as a day")),
              Cell.text(line.bench()),
              Cell.text(line.name()),
              Cell.text(line.roles()),
              Cell.text(Words.orDash(line.identity())),
              Cell.text(Words.orDash(line.serial())),
              Cell.text(Words.orDash(line.certificate()))));
    }
    Table table =
        new Table(
            "Instruments by the day on which their calibration falls due",
            List.of(
                "Left", "Due", "Bench", "Instrument", "Roles", "Model", "Serial", "Certificate"),
            rows,
            "None of " + all.size() + " instruments is due by then.");
    if (Table.asked(visit)) {
      table.download(visit, "due");
      return;
    }
    long overdue = soon.stream().filter(line -> line.overdue(today())).count();
    visit.show(
        "web/desk/due.jte",
        new DuePage(visit.layout("Due dates", KEY), table, overdue, Query.of(visit, "days")));
  }

  /** Of real benches that have no file here; none where there is no archive yet. */
  private List<DueDates.Line> archived() throws WrongRequest {
    try {
      return books.ask(DueDates::of);
    } catch (Refusal e) {
      return List.of();
    }
  }
}

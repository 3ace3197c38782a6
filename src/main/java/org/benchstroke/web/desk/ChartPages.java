package org.benchstroke.web.desk;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.CapabilityStudy;
import org.benchstroke.app.history.FaultCounts;
import org.benchstroke.app.history.Lacking;
import org.benchstroke.app.history.LookedBack;
import org.benchstroke.app.history.LookedBack.Looked;
import org.benchstroke.app.history.MeasureChoice;
import org.benchstroke.app.history.Naming;
import org.benchstroke.app.history.Series;
import org.benchstroke.app.history.Trend;
import org.benchstroke.app.history.Yields;
import org.benchstroke.archive.ShopHistory.Measured;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Capability;
import org.benchstroke.core.statistics.ControlChart;
import org.benchstroke.core.statistics.LookBack.Fate;
import org.benchstroke.core.statistics.NoAnswer;
import org.benchstroke.core.statistics.Pareto;
import org.benchstroke.core.statistics.Yield;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.ReportPage;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.papers.plot.SvgFile;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.web.Layout;
import org.benchstroke.web.Pages;
import org.benchstroke.web.Right;
import org.benchstroke.web.Routes;
import org.benchstroke.web.Visit;

/** What the runs of a shop say together. Any thread, several at a time. */
public final class ChartPages implements Pages {
  static final String KEY = "charts";
  private static final String TREND = "/desk/trend";
  private static final String YIELD = "/desk/yield";
  private static final String FAULTS = "/desk/faults";
  private static final String CAPABILITY = "/desk/capability";
  private static final String LOOK_BACK = "/desk/look-back";
  private static final int NEWEST = 30;
  private static final Table NO_CHOICE = new Table("", List.of(), List.of(), "");

  private final Books books;

  ChartPages(Books books) {
    this.books = books;
  }

  @Override
  public void register(Routes routes) {
    routes.get(TREND, Right.READ, this::trend);
    routes.get(YIELD, Right.READ, this::yields);
    routes.get(FAULTS, Right.READ, this::faults);
    routes.get(CAPABILITY, Right.READ, this::capability);
    routes.get(LOOK_BACK, Right.READ, this::lookBack);
  }

  @Override
  public List<Way> ways() {
    return List.of(new Way(KEY, TREND, "Charts"));
  }

  /**
   * A page of the group, for the row of links above it.
   *
   * @param path where it is
   * @param name what it is called
   */
  public record Tab(String path, String name) {
    /** All of them. */
    public static List<Tab> all() {
      return List.of(
          new Tab(TREND, "Trend"),
          new Tab(YIELD, "Yield"),
          new Tab(FAULTS, "Faults"),
          new Tab(CAPABILITY, "Capability"),
          new Tab(LOOK_BACK, "Looking back"));
    }
  }

  /**
   * What such a page has found.
   *
   * @param title what it is of; empty before anything was asked
   * @param notes sentences below the title
   * @param tables in order
   * @param drawings in order
   * @param alarm what must be seen first; may be empty
   */
  public record Findings(
      String title, List<String> notes, List<Table> tables, List<Drawing> drawings, String alarm) {
    static final Findings NONE = new Findings("", List.of(), List.of(), List.of(), "");

    static Findings saying(String alarm) {
      return new Findings("", List.of(), List.of(), List.of(), alarm);
    }

    public Findings {
      notes = List.copyOf(notes);
      tables = List.copyOf(tables);
      drawings = List.copyOf(drawings);
    }
  }

  /**
   * A page of a statistic.
   *
   * @param path of this page
   * @param lead what it tells, in a sentence or two
   * @param filters which runs
   * @param measures to choose from; empty where none is asked for
   * @param series to choose from; no rows where there is no choice
   * @param found what was found
   */
  public record ChartPage(
      Layout layout,
      String path,
      String lead,
      Filters filters,
      List<MeasureKind> measures,
      Table series,
      Findings found) {
    /** The pages of the group. */
    public List<Tab> tabs() {
      return Tab.all();
    }

    /** The address of what was found as a file. */
    public String file(String as) {
      return filters.query().with("as", as).on(path);
    }

    /** Whether there is a field of its own of this name. */
    public boolean is(String page) {
      return path.equals("/desk/" + page);
    }
  }

  private ChartPage page(Visit visit, String path, String title, String lead, Filters filters) {
    return new ChartPage(
        visit.layout(title, KEY), path, lead, filters, List.of(), NO_CHOICE, Findings.NONE);
  }

  /** Answers with the page, or with what was found as a file. */
  private static void show(Visit visit, ChartPage page, String name) {
    Findings found = page.found();
    String as = visit.query("as").orElse("");
    if (as.equals("csv") && !found.tables().isEmpty()) {
      found.tables().get(0).download(visit, name);
    } else if (as.equals("svg") && !found.drawings().isEmpty()) {
      byte[] svg = SvgFile.text(found.drawings()).getBytes(StandardCharsets.UTF_8);
      visit.download(name + ".svg", "image/svg+xml", svg);
    } else {
      visit.show("web/desk/chart.jte", page);
    }
  }

  private ChartPage with(ChartPage page, Table series, Findings found) {
    return new ChartPage(
        page.layout(), page.path(), page.lead(), page.filters(), page.measures(), series, found);
  }

  private static ChartPage measuring(ChartPage page) {
    return new ChartPage(
        page.layout(),
        page.path(),
        page.lead(),
        page.filters(),
        Arrays.asList(MeasureKind.values()),
        page.series(),
        page.found());
  }

  /** The choice of a measure, where one was made. */
  private static Optional<MeasureChoice> choice(Visit visit) {
    // The whole unit is a place without a name, which an address can't tell from no place.
    Optional<String> place = visit.query("place").map(p -> p.equals("unit") ? "" : p);
    return visit
        .query("measure")
        .map(key -> new MeasureChoice(key, place, visit.query("truth"), Naming.FIELDS));
  }

  /** The series of a measure, those with the most values first. */
  private static Table choices(Filters filters, String path, List<Measured> all) {
    Map<MeasureChoice.At, Long> series = MeasureChoice.series(all);
    List<MeasureChoice.At> order = new ArrayList<>(series.keySet());
    order.sort(Comparator.comparing((MeasureChoice.At at) -> -series.get(at)));
    List<List<Cell>> rows = new ArrayList<>();
    for (MeasureChoice.At at : order) {
      String place = at.place().isEmpty() ? "whole unit" : at.place();
      String href =
          filters
              .query()
              .with("place", at.place().isEmpty() ? "unit" : at.place())
              .with("truth", at.truth())
              .on(path);
      rows.add(List.of(Cell.link(place, href), Cell.text(at.truth()), Cell.count(series.get(at))));
    }
    return new Table(
        "Choose where, and by what it was known", List.of("Place", "Known by", "Values"), rows, "");
  }

  private void trend(Visit visit) throws Exception {
    Filters filters = Filters.of(visit, books, "measure", "place", "truth", "baseline");
    ChartPage page =
        measuring(
            page(
                visit,
                TREND,
                "Trend",
                "One measure over time, of a unit, a type or a bench, with its control charts: limits"
                    + " from the first values, and every later one compared with them.",
                filters));
    show(visit, asked(visit, page, this::trendOf), "trend");
  }

  /** What is found of the values of a measure. */
  private interface OfSeries {
    Findings of(Visit visit, Filters filters, Series series) throws Exception;
  }

  /** Leads from no measure to a series, and from there to what is found. */
  private ChartPage asked(Visit visit, ChartPage page, OfSeries found) throws Exception {
    Filters filters = page.filters();
    Optional<MeasureChoice> choice = choice(visit);
    if (choice.isEmpty()) {
      return page;
    }
    try {
      choice.get().kind();
      requireSome(page, visit);
      List<Measured> all =
          books.ask(
              archive ->
                  filters
                      .runs()
                      .of(archive, Naming.FIELDS)
                      .measured(choice.get().measure().strip()));
      Table choices = choices(filters, page.path(), all);
      boolean chosen = choice.get().place().isPresent() && choice.get().truth().isPresent();
      if (choices.rows().size() > 1 && !chosen) {
        return with(page, choices, Findings.NONE);
      }
      Series series = choice.get().of(all);
      return with(page, NO_CHOICE, found.of(visit, filters, series));
    } catch (WrongRequest e) {
      return with(page, NO_CHOICE, Findings.saying(Words.sentence(e.getMessage())));
    }
  }

  private static void requireSome(ChartPage page, Visit visit) throws WrongRequest {
    if (page.path().equals(TREND)) {
      Trend.require(page.filters().runs(), baseline(visit), Naming.FIELDS);
    } else {
      CapabilityStudy.require(page.filters().runs(), Naming.FIELDS);
    }
  }

  private static OptionalInt baseline(Visit visit) throws WrongRequest {
    Optional<Double> number = Filters.number(visit, "baseline");
    return number.isPresent() ? OptionalInt.of(number.get().intValue()) : OptionalInt.empty();
  }

  private Findings trendOf(Visit visit, Filters filters, Series series) throws WrongRequest {
    Trend trend = Trend.of(series, baseline(visit));
    List<String> notes = new ArrayList<>();
    notes.add("Of " + filters.runs().words() + ".");
    series.leftOutWords().ifPresent(notes::add);
    trend.baselineWords().ifPresent(notes::add);
    trend.rules().forEach((rule, numbers) -> notes.add("Signals, " + rule + ": " + list(numbers)));
    if (trend.lack().isEmpty() && trend.rules().isEmpty()) {
      notes.add("No rule is met.");
    }
    boolean file = Table.asked(visit);
    List<Table> tables = new ArrayList<>();
    tables.add(values(trend, file ? Integer.MAX_VALUE : NEWEST));
    if (trend.lack().isEmpty()) {
      tables.add(limits(trend));
    }
    return new Findings(
        series.title(),
        notes,
        tables,
        trend.drawings(filters.runs().simulated()),
        trend.lack().map(why -> Lacking.words("values", why)).orElse(""));
  }

  private static String list(List<Integer> numbers) {
    List<String> all = numbers.stream().map(String::valueOf).toList();
    return String.join(", ", all) + ".";
  }

  private static Table values(Trend trend, int most) {
    List<Measured> values = trend.series().values();
    Map<Integer, List<String>> signals = trend.signals();
    List<List<Cell>> rows = new ArrayList<>();
    for (int i = values.size() - 1; i >= 0 && rows.size() < most; i--) {
      Measured each = values.get(i);
      double value = each.measure().value().orElseThrow();
      rows.add(
          List.of(
              Cell.count(i + 1),
              Cell.link(Words.minute(each.run().facts().begun()), Links.run(each.run())),
              Cell.link(each.run().labels().serial(), Links.unit(each.run().labels().serial())),
              Cell.figure(value, Trend.figure(value)),
              Words.figure(each.measure().half(), 2),
              Cell.text(String.join("; ", signals.getOrDefault(i, List.of())))));
    }
    String which = rows.size() < values.size() ? "The newest " + rows.size() + " of " : "All ";
    return new Table(
        which + values.size() + " values, the newest first; times by UTC",
        List.of("No.", "Begun", "Serial", "Value, " + trend.series().kind().unit(), "U", "Signal"),
        rows,
        "No run has a value that counts.");
  }

  private static Table limits(Trend trend) {
    List<List<Cell>> rows = new ArrayList<>();
    for (ControlChart chart : trend.charts()) {
      ControlChart.Point last = chart.points().get(chart.points().size() - 1);
      rows.add(
          List.of(
              Cell.text(Trend.name(chart.kind())),
              Cell.figure(last.low(), Trend.figure(last.low())),
              Cell.figure(chart.centre(), Trend.figure(chart.centre())),
              Cell.figure(last.high(), Trend.figure(last.high())),
              Cell.count(
                  chart.signals().stream().map(ControlChart.Signal::index).distinct().count())));
    }
    return new Table(
        "Limits of the charts",
        List.of("Chart", "Lower limit", "Centre", "Upper limit", "Signals"),
        rows,
        "");
  }

  private void yields(Visit visit) throws Exception {
    Filters filters = Filters.of(visit, books, "by");
    ChartPage page =
        page(
            visit,
            YIELD,
            "Yield",
            "How many units passed at their first whole run, with the interval that holds the"
                + " long-run share in 95 of 100 cases (Wilson). A conditional pass is no pass.",
            filters);
    Yields.By by =
        Arrays.stream(Yields.By.values())
            .filter(b -> b.key().equals(filters.get("by")))
            .findFirst()
            .orElse(Yields.By.TYPE);
    Yields yields = books.ask(a -> Yields.of(filters.runs().of(a, Naming.FIELDS), by));
    List<List<Cell>> rows = new ArrayList<>();
    yields.lines().forEach(line -> rows.add(row(line.name(), line.yield())));
    if (rows.size() > 1) {
      yields.all().ifPresent(all -> rows.add(row("all", all)));
    }
    Table table =
        new Table(
            "First-pass yield by " + by.key(),
            List.of(by.key(), "Jobs", "Passed", "Yield, %", "From, %", "To, %"),
            rows,
            "No job of these runs has a whole run.");
    String title = "First-pass yield of " + filters.runs().words();
    show(
        visit,
        with(page, NO_CHOICE, new Findings(title, List.of(), List.of(table), List.of(), "")),
        "yield");
  }

  private static List<Cell> row(String name, Yield yield) {
    return List.of(
        Cell.text(name),
        Cell.count(yield.tested()),
        Cell.count(yield.passed()),
        percent(yield.share()),
        percent(yield.low()),
        percent(yield.high()));
  }

  private static Cell percent(double share) {
    return Cell.figure(100.0 * share, Numbers.fixed(100.0 * share, 1));
  }

  private void faults(Visit visit) throws Exception {
    Filters filters = Filters.of(visit, books, "of");
    ChartPage page =
        page(
            visit,
            FAULTS,
            "Faults",
            "What was wrong with units as found, by how often: the likely causes that the diagnosis"
                + " named, each once for a job, or the measures that failed.",
            filters);
    FaultCounts.Of of =
        filters.get("of").equals(FaultCounts.Of.MEASURES.key())
            ? FaultCounts.Of.MEASURES
            : FaultCounts.Of.CAUSES;
    FaultCounts counts = books.ask(a -> FaultCounts.of(filters.runs().of(a, Naming.FIELDS), of));
    List<List<Cell>> rows = new ArrayList<>();
    for (Pareto.Row<String> row : counts.pareto().rows()) {
      Cell name = Cell.text(counts.name(row.cause()));
      rows.add(
          List.of(
              of == FaultCounts.Of.MEASURES ? name.to(Links.measure(row.cause())) : name,
              Cell.count(row.count()),
              percent(row.share()),
              percent(row.cumulative())));
    }
    Table table =
        new Table(
            of.title() + " of " + counts.jobs() + " jobs as found",
            List.of(of.one(), "Units", "Share, %", "Sum, %"),
            rows,
            "None was seen.");
    List<Drawing> drawing = counts.drawing(filters.runs()).stream().toList();
    show(
        visit,
        with(page, NO_CHOICE, new Findings("", List.of(), List.of(table), drawing, "")),
        "faults");
  }

  private void capability(Visit visit) throws Exception {
    Filters filters = Filters.of(visit, books, "measure", "place", "truth", "low", "high", "found");
    ChartPage page =
        measuring(
            page(
                visit,
                CAPABILITY,
                "Capability",
                "How much room the limits of a measure leave, of a type or a bench. The limits are"
                    + " those of the runs; where they differ, state them.",
                filters));
    show(visit, asked(visit, page, this::capabilityOf), "capability");
  }

  private Findings capabilityOf(Visit visit, Filters filters, Series all) throws Exception {
    Series series =
        filters.get("found").isEmpty()
            ? all
            : books.ask(a -> all.asFound(filters.runs().of(a, Naming.FIELDS)));
    CapabilityStudy study =
        CapabilityStudy.of(series, maybe(visit, "low"), maybe(visit, "high"), Naming.FIELDS);
    String unit = " " + series.kind().unit();
    List<String> notes = new ArrayList<>();
    notes.add("Of " + filters.runs().words() + ". Limits: " + study.limits() + unit + ".");
    series.leftOutWords().ifPresent(notes::add);
    if (study.answer() instanceof NoAnswer why) {
      return new Findings(
          series.title(), notes, List.of(), List.of(), Lacking.words("values", why));
    }
    Capability found = (Capability) study.answer();
    notes.add(
        found.count()
            + " values, mean "
            + figure(found.mean())
            + unit
            + ", σ from one to the next "
            + figure(found.within())
            + unit
            + ", σ of all "
            + figure(found.overall())
            + unit
            + ".");
    notes.add(
        "Normality (Anderson and Darling): A² "
            + figure(found.normality().statistic())
            + ", p "
            + figure(found.normality().p())
            + ". "
            + CapabilityStudy.advice(found));
    List<List<Cell>> rows = new ArrayList<>();
    CapabilityStudy.indices(found)
        .forEach(
            (name, index) ->
                rows.add(
                    List.of(
                        Cell.text(name), two(index.value()), two(index.low()), two(index.high()))));
    Table table =
        new Table(
            "Indices, with the interval that holds them in 95 of 100 cases",
            List.of("Index", "Value", "From", "To"),
            rows,
            "");
    return new Findings(
        series.title(),
        notes,
        List.of(table),
        List.of(),
        study.signals() > 0 ? study.notInControl() : "");
  }

  private static OptionalDouble maybe(Visit visit, String field) throws WrongRequest {
    Optional<Double> number = Filters.number(visit, field);
    return number.isPresent() ? OptionalDouble.of(number.get()) : OptionalDouble.empty();
  }

  private static Cell two(double value) {
    return Cell.figure(value, Numbers.fixed(value, 2));
  }

  private static String figure(double value) {
    return Numbers.minusSigns(Numbers.significant(value, 3));
  }

  private void lookBack(Visit visit) throws Exception {
    Filters filters = Filters.of(visit, books, "instrument", "error");
    ChartPage page =
        page(
            visit,
            LOOK_BACK,
            "Looking back",
            "An instrument was found to be off: what does that do to the past? Every real run with it"
                + " since the last good check is judged again from its record, with the whole error"
                + " taken off, put on, and with the part of it that suits best. No record is"
                + " changed. Of thousands of runs it takes minutes.",
            filters);
    if (filters.get("error").isEmpty()) {
      show(visit, page, "look-back");
      return;
    }
    ChartPage answered;
    try {
      Optional<String> instrument = visit.query("instrument");
      Optional<String> bench = visit.query("bench");
      Optional<String> since = visit.query("since");
      var suspect = LookedBack.suspect(instrument, bench, filters.get("error"), Naming.FIELDS);
      LookedBack back =
          books.ask(
              archive ->
                  LookedBack.of(
                      archive,
                      new LookedBack.Question(
                          instrument,
                          bench,
                          since.isPresent()
                              ? since.get()
                              : LookedBack.lastGood(archive, bench, Naming.FIELDS),
                          visit.query("until"),
                          filters.get("error")),
                      suspect,
                      Naming.FIELDS));
      answered = with(page, NO_CHOICE, lookedBack(back));
    } catch (WrongRequest e) {
      answered = with(page, NO_CHOICE, Findings.saying(Words.sentence(e.getMessage())));
    }
    show(visit, answered, "look-back");
  }

  private static Findings lookedBack(LookedBack back) {
    List<List<Cell>> runs = new ArrayList<>();
    List<List<Cell>> measures = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    for (Looked each : back.runs()) {
      runs.add(
          List.of(
              Cell.link(
                  each.dated() ? Words.day(each.run().facts().begun()) : "not dated",
                  Links.run(each.run())),
              Cell.link(each.run().labels().serial(), Links.unit(each.run().labels().serial())),
              Cell.text(each.run().labels().order()),
              Cell.verdict(each.run().result().verdict()),
              Cell.marked(mark(each), each.word(), each.word()),
              Cell.text(each.moved() + " of " + each.measures().size())));
      each.problem().ifPresent(why -> notes.add(each.run().file().name() + ": " + why + "."));
      each.measures().stream()
          .filter(again -> again.found().fate() != Fate.KEPT)
          .forEach(
              again ->
                  measures.add(
                      List.of(
                          Cell.text(each.run().labels().serial()),
                          Cell.text(
                              again.judged().measure().kind().title()
                                  + again.judged().measure().place().behind()),
                          Words.figure(
                              OptionalDouble.of(again.judged().measure().value().orElseThrow()), 3),
                          word(again.found().before()),
                          word(again.found().lower()),
                          word(again.found().higher()),
                          Cell.text(LookedBack.word(again.found().fate())))));
    }
    List<String> jobs = new ArrayList<>();
    back.jobs().forEach((word, count) -> jobs.add(count + " " + word));
    notes.add(0, "Jobs: " + String.join(", ", jobs) + ".");
    back.touchesNothing().ifPresent(notes::add);
    Table all =
        new Table(
            "Runs since then",
            List.of("Begun", "Serial", "Order", "Verdict was", "Now it is", "Measures moved"),
            runs,
            "");
    Table moved =
        new Table(
            "Measures whose word does not stay for certain",
            List.of("Serial", "Measure", "Value", "It was", "Lower", "Higher", "So it is"),
            measures,
            "Every measure keeps its word.");
    String title =
        "Error of "
            + Numbers.plain(back.suspect().size())
            + " "
            + back.suspect().unit().text()
            + (back.kept() ? ": every verdict is kept" : ": not every verdict is kept");
    return new Findings(title, notes, List.of(all, moved), List.of(), "");
  }

  private static Cell word(Word word) {
    return Cell.marked(ReportPage.key(word), word.text(), word.text());
  }

  private static String mark(Looked each) {
    Optional<Fate> fate = each.fate();
    if (fate.isEmpty()) {
      return ReportPage.key(Word.NO_RESULT);
    }
    return ReportPage.key(
        switch (fate.get()) {
          case NOT_TOUCHED, KEPT -> Word.PASS;
          case UNDECIDED -> Word.CONDITIONAL_FAIL;
          case CHANGED -> Word.FAIL;
        });
  }
}

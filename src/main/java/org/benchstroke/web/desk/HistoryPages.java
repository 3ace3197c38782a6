package org.benchstroke.web.desk;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.history.Days;
import org.benchstroke.app.history.ReportNumbers;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.Archive.Names;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.JobLine;
import org.benchstroke.archive.RunFilter;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.ComparedRuns;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.web.Layout;
import org.benchstroke.web.Pages;
import org.benchstroke.web.Refusal;
import org.benchstroke.web.Right;
import org.benchstroke.web.Routes;
import org.benchstroke.web.Visit;

/** What was tested: lists, units, jobs. Any thread, several at a time. */
public final class HistoryPages implements Pages {
  static final String KEY = "history";
  private static final int ON_A_PAGE = 40;
  private static final int MOST_OF_A_UNIT = 400;
  private static final String NONE =
      "Nothing in the archive is like that. Ask for less: fewer filters, or a part of the serial"
          + " number.";
  private static final List<String> ATTEMPT =
      List.of("Begun", "Verdict", "Procedure", "Operator", "Bench", "Note");

  private final Books books;
  private final Judgements judgements;

  HistoryPages(Books books, Judgements judgements) {
    this.books = books;
    this.judgements = judgements;
  }

  @Override
  public void register(Routes routes) {
    routes.get(Links.HISTORY, Right.READ, this::list);
    routes.get(Links.UNIT, Right.READ, this::unit);
    routes.get(Links.JOB, Right.READ, this::job);
  }

  @Override
  public List<Way> ways() {
    return List.of(new Way(KEY, Links.HISTORY, "History"));
  }

  /**
   * A list of jobs or of runs.
   *
   * @param query what was asked
   * @param names to choose from
   * @param table the list
   * @param number of this page, from 1
   * @param more whether there are older ones
   */
  public record ListPage(
      Layout layout, Query query, Names names, Table table, int number, boolean more) {
    /** Whether jobs are listed, and not runs. */
    public boolean jobs() {
      return !query.get("what").equals("runs");
    }

    /** The words of a verdict, to choose from. */
    public List<Word> words() {
      return List.of(Word.values());
    }

    /** Whether one of the fields behind the first is in use. */
    public boolean filtered() {
      return List.of("order", "type", "verdict", "operator", "bench", "since", "until").stream()
          .anyMatch(field -> !query.get(field).isEmpty());
    }

    /** The address of another page of the list. */
    public String page(int other) {
      return query.with("page", other == 1 ? "" : String.valueOf(other)).on(Links.HISTORY);
    }

    /** The address of the list of something else. */
    public String listing(String what) {
      return query.with("page", "").with("what", what).on(Links.HISTORY);
    }

    /** The address of the list as a file. */
    public String file() {
      return query.with("as", "csv").on(Links.HISTORY);
    }
  }

  private void list(Visit visit) throws Exception {
    Query query =
        Query.of(
            visit,
            "q",
            "what",
            "order",
            "type",
            "verdict",
            "operator",
            "bench",
            "since",
            "until",
            "page");
    Optional<String> straight = straight(query.get("q"));
    if (straight.isPresent()) {
      visit.goTo(straight.get());
      return;
    }
    boolean jobs = !query.get("what").equals("runs");
    int number = page(query.get("page"));
    RunFilter filter = filter(visit);
    int skip = (number - 1) * ON_A_PAGE;
    Table table =
        books.ask(
            archive ->
                jobs
                    ? jobs(archive.jobs(filter, ON_A_PAGE + 1, skip))
                    : runs(archive.runs(filter, ON_A_PAGE + 1, skip)));
    boolean more = table.rows().size() > ON_A_PAGE;
    Table shown =
        new Table(
            table.caption(),
            table.heads(),
            table.rows().subList(0, Math.min(ON_A_PAGE, table.rows().size())),
            table.none());
    if (Table.asked(visit)) {
      shown.download(visit, jobs ? "jobs" : "runs");
      return;
    }
    visit.show(
        "web/desk/history.jte",
        new ListPage(
            visit.layout("History", KEY), query, books.ask(Archive::names), shown, number, more));
  }

  private static int page(String text) throws WrongRequest {
    if (text.isEmpty()) {
      return 1;
    }
    if (!text.matches("[1-9][0-9]{0,5}")) {
      throw new WrongRequest("page: found \"" + text + "\", allowed is 1 to 999999");
    }
    return Integer.parseInt(text);
  }

  /** A scan of a serial number or of a report's number leads to its page. */
  private Optional<String> straight(String text) throws Refusal, WrongRequest {
    if (text.isEmpty()) {
      return Optional.empty();
    }
    return books.ask(
        archive -> {
          if (!archive.runs(RunFilter.ofSerial(text), 1).isEmpty()) {
            return Optional.of(Links.unit(text));
          }
          return text.startsWith("BS-") ? report(archive, text) : Optional.empty();
        });
  }

  private static Optional<String> report(Archive archive, String number) throws ArchiveFault {
    try {
      return Optional.of(Links.run(new ReportNumbers(archive).run(number)));
    } catch (WrongRequest e) {
      return Optional.empty(); // Then it is looked for as a text.
    }
  }

  private static RunFilter filter(Visit visit) throws WrongRequest {
    Optional<Instant> from = Days.from("since", visit.query("since"));
    Optional<Instant> before = Days.before("until", visit.query("until"));
    return new RunFilter(
        Optional.empty(),
        visit.query("order"),
        visit.query("type"),
        visit.query("verdict").filter(v -> Words.isWord(v)),
        visit.query("operator"),
        visit.query("bench"),
        from,
        before,
        visit.query("q"));
  }

  private static Table jobs(List<JobLine> jobs) {
    List<List<Cell>> rows = new ArrayList<>();
    for (JobLine job : jobs) {
      rows.add(
          List.of(
              Cell.link(
                  Words.orDash(job.serial()),
                  Links.job(job.order(), job.serial(), job.simulated())),
              Cell.text(Words.orDash(job.order())),
              Cell.text(job.unitType()),
              job.asFound().map(Cell::verdict).orElse(Cell.text("–")),
              job.asLeft().map(Cell::verdict).orElse(Cell.text("–")),
              Cell.count(job.attempts()),
              Cell.text(Words.day(job.last())),
              Cell.text(marks(job))));
    }
    return new Table(
        "Jobs, the newest first; days by UTC",
        List.of("Serial", "Order", "Unit type", "As found", "As left", "Runs", "Last run", "Note"),
        rows,
        NONE);
  }

  private static String marks(JobLine job) {
    List<String> marks = new ArrayList<>();
    if (job.simulated()) {
      marks.add("simulated");
    }
    if (job.wholeAttempts() == 0) {
      marks.add("no whole run");
    }
    return String.join(", ", marks);
  }

  private static Table runs(List<Heading> runs) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Heading run : runs) {
      List<Cell> row = new ArrayList<>(attempt(run));
      row.add(1, Cell.link(Words.orDash(run.labels().serial()), Links.unit(run.labels().serial())));
      row.add(2, Cell.text(Words.orDash(run.labels().order())));
      row.add(3, Cell.text(run.facts().unitType()));
      rows.add(row);
    }
    List<String> heads = new ArrayList<>(ATTEMPT);
    heads.addAll(1, List.of("Serial", "Order", "Unit type"));
    return new Table("Runs, the newest first; times by UTC", heads, rows, NONE);
  }

  private static List<Cell> attempt(Heading run) {
    return List.of(
        Cell.link(Words.minute(run.facts().begun()), Links.run(run)),
        Cell.verdict(run.result().verdict()),
        Cell.text(run.facts().procedure() + " " + run.facts().procedureVersion()),
        Cell.text(Words.orDash(run.labels().operator())),
        Cell.text(run.facts().bench()),
        Cell.text(String.join(", ", Words.marks(run))));
  }

  /**
   * A job with its runs.
   *
   * @param line what it says as a whole
   * @param runs the oldest first
   */
  public record Job(JobLine line, List<Heading> runs) {
    public Job {
      runs = List.copyOf(runs);
    }

    /** The first whole run. */
    public Optional<Heading> asFound() {
      return runs.stream().filter(run -> run.result().whole()).findFirst();
    }

    /** The last whole run, where it is another one. */
    public Optional<Heading> asLeft() {
      return runs.stream()
          .filter(run -> run.result().whole())
          .reduce((first, second) -> second)
          .filter(run -> !asFound().equals(Optional.of(run)));
    }

    /** Its runs, the newest first. */
    public Table table() {
      List<List<Cell>> rows = new ArrayList<>();
      for (int i = runs.size() - 1; i >= 0; i--) {
        rows.add(attempt(runs.get(i)));
      }
      return new Table("Attempts, the newest first; times by UTC", ATTEMPT, rows, NONE);
    }

    /** Its own address. */
    public String href() {
      return Links.job(line.order(), line.serial(), line.simulated());
    }

    /** The address of one of its papers. */
    public String paper(String key) {
      return Links.job(
          line.order(), line.serial(), line.simulated(), RunPages.JOB_PAPER + key + ".pdf");
    }

    /** The address of both runs side by side; empty with one. */
    public Optional<String> compared() {
      return asLeft()
          .map(
              left ->
                  Query.NONE
                      .with("a", Links.id(asFound().orElseThrow()))
                      .with("b", Links.id(left))
                      .on(Links.COMPARE));
    }
  }

  /**
   * A unit.
   *
   * @param serial its serial number
   * @param jobs the newest first
   */
  public record UnitPage(Layout layout, String serial, List<Job> jobs) {
    /** All its runs, the newest first. */
    public List<Heading> runs() {
      List<Heading> runs = new ArrayList<>();
      jobs.forEach(job -> runs.addAll(job.runs()));
      runs.sort((a, b) -> b.facts().begun().compareTo(a.facts().begun()));
      return runs;
    }

    /** Every measure, for a trend. */
    public List<MeasureKind> measures() {
      return Arrays.asList(MeasureKind.values());
    }

    /** Whether the unit is simulated: then its trends are. */
    public boolean simulated() {
      return jobs.stream().allMatch(job -> job.line().simulated());
    }
  }

  private void unit(Visit visit) throws Exception {
    String serial = required(visit, "serial");
    List<Job> jobs =
        books.ask(
            archive ->
                jobs(
                    archive.jobs(RunFilter.ofSerial(serial), MOST_OF_A_UNIT),
                    archive.runs(RunFilter.ofSerial(serial), MOST_OF_A_UNIT)));
    if (jobs.isEmpty()) {
      throw unknown(serial);
    }
    visit.show(
        "web/desk/unit.jte", new UnitPage(visit.layout("Unit " + serial, KEY), serial, jobs));
  }

  private static Refusal unknown(String serial) {
    return Refusal.notThere(
        "No run in the archive has the serial number "
            + serial
            + ". Look in the history for a part of it: it may have been typed otherwise.");
  }

  private static String required(Visit visit, String field) throws Refusal {
    return visit
        .query(field)
        .orElseThrow(
            () ->
                Refusal.notThere(
                    "This address names no "
                        + field
                        + ". Begin at the history, and follow a link."));
  }

  private static List<Job> jobs(List<JobLine> lines, List<Heading> newestFirst) {
    List<Job> jobs = new ArrayList<>();
    for (JobLine line : lines) {
      List<Heading> runs = new ArrayList<>();
      for (Heading run : newestFirst) {
        if (run.labels().order().equals(line.order())
            && run.labels().serial().equals(line.serial())
            && run.facts().simulated() == line.simulated()) {
          runs.add(0, run);
        }
      }
      jobs.add(new Job(line, runs));
    }
    return jobs;
  }

  /** A job of the archive; used for its papers as well. */
  static Job job(Books books, Visit visit) throws Refusal, WrongRequest {
    String serial = visit.query("serial").orElse("");
    String order = visit.query("order").orElse("");
    RunFilter filter = RunFilter.ofJob(order, serial);
    boolean simulated = visit.query("runs").filter("simulated"::equals).isPresent();
    return books
        .ask(
            archive ->
                jobs(archive.jobs(filter, MOST_OF_A_UNIT), archive.runs(filter, MOST_OF_A_UNIT)))
        .stream()
        .filter(job -> job.line().simulated() == simulated)
        .findFirst()
        .orElseThrow(
            () ->
                Refusal.notThere(
                    "The archive has no job of order \""
                        + order
                        + "\" and serial number \""
                        + serial
                        + "\". Look for the serial number in the history."));
  }

  /**
   * A job.
   *
   * @param job the job
   * @param drawing as found and as left in one picture; empty with one whole run, or without their
   *     records
   * @param trouble why there is no picture where there should be one; empty if there is
   */
  public record JobPage(Layout layout, Job job, Optional<Drawing> drawing, String trouble) {}

  private void job(Visit visit) throws Exception {
    Job job = job(books, visit);
    Optional<Drawing> drawing = Optional.empty();
    String trouble = "";
    if (job.asLeft().isPresent()) {
      try {
        drawing =
            compared(job.asFound().orElseThrow(), job.asLeft().get())
                .picture("as found", "as left");
      } catch (Refusal e) {
        trouble = e.getMessage();
      }
    }
    String title = "Unit " + Words.orDash(job.line().serial()) + ", order " + job.line().order();
    visit.show("web/desk/job.jte", new JobPage(visit.layout(title, KEY), job, drawing, trouble));
  }

  private ComparedRuns compared(Heading first, Heading second) throws Exception {
    return RunPages.compared(judgements, first, second);
  }
}

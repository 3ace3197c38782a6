package org.benchstroke.web.desk;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.AdjustedReport;
import org.benchstroke.app.FiledRecords;
import org.benchstroke.app.Issuing;
import org.benchstroke.app.PaperSort;
import org.benchstroke.app.RecordFiles;
import org.benchstroke.app.Reports;
import org.benchstroke.app.Verified;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.ArchivedRun.MeasureRow;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.ComparedRuns;
import org.benchstroke.papers.ComparedRuns.Pair;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.papers.MeasuresCsv;
import org.benchstroke.papers.SamplesCsv;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.papers.sheets.Issue;
import org.benchstroke.papers.sheets.LabelSize;
import org.benchstroke.papers.sheets.Subject;
import org.benchstroke.record.AmendmentFiles;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.SealFile;
import org.benchstroke.record.signing.PublicHalf;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.web.Layout;
import org.benchstroke.web.Pages;
import org.benchstroke.web.Refusal;
import org.benchstroke.web.Right;
import org.benchstroke.web.Routes;
import org.benchstroke.web.Visit;

/** Runs, two of them side by side, and all that can be taken away. Any thread. */
public final class RunPages implements Pages {
  static final String JOB_PAPER = "/desk/job/paper/";
  private static final String JSON_LINES = "application/jsonl; charset=utf-8";
  private static final String CSV = "text/csv; charset=utf-8";
  private static final String PDF = "application/pdf";
  private static final int DIGITS = 3;

  private final Holdings holdings;
  private final Books books;
  private final Judgements judgements;
  private final HelpTexts texts;

  RunPages(Holdings holdings, Books books, Judgements judgements, HelpTexts texts) {
    this.texts = texts;
    this.holdings = holdings;
    this.books = books;
    this.judgements = judgements;
  }

  @Override
  public void register(Routes routes) {
    routes.get(Links.RUN + "{id}", Right.READ, this::run);
    routes.get(Links.RUN + "{id}/file/{name}", Right.READ, this::file);
    routes.get(Links.RUN + "{id}/paper/{name}", Right.READ, this::paper);
    routes.get(JOB_PAPER + "{name}", Right.READ, this::jobPaper);
    routes.get(Links.COMPARE, Right.READ, this::compare);
  }

  /**
   * Something to take away.
   *
   * @param name what it is
   * @param href where it is
   * @param about what it is for
   */
  public record Download(String name, String href, String about) {}

  /**
   * A run.
   *
   * @param run as the archive has it
   * @param report as its record gives it now; empty if that is not there or can't be judged
   * @param trouble why there is no report; empty if there is
   * @param seal in words, with where it was changed
   * @param sealed whether every byte is as it was sealed
   * @param key by which it was sealed; empty without a seal that holds
   * @param kept the measures as the archive keeps them
   * @param downloads all that can be taken away
   * @param texts of the help
   */
  public record RunPage(
      Layout layout,
      Heading run,
      Optional<RunReport> report,
      String trouble,
      String seal,
      boolean sealed,
      String key,
      Table kept,
      List<Download> downloads,
      HelpTexts texts) {
    /** What explains a measure. */
    public HelpTexts.Explained explained(MeasureKind kind) {
      return texts.of(kind);
    }

    /** Where a measure is explained. */
    public String help(MeasureKind kind) {
      return Links.measure(kind.key());
    }

    /** Its job. */
    public String job() {
      return Links.job(run.labels().order(), run.labels().serial(), run.facts().simulated());
    }
  }

  private void run(Visit visit) throws Exception {
    Heading run = books.run(visit.path("id"));
    Optional<RunReport> report = Optional.empty();
    String trouble = "";
    try {
      report = Optional.of(judgements.report(run));
    } catch (Refusal e) {
      trouble = e.getMessage();
    }
    List<MeasureRow> measures =
        report.isPresent()
            ? List.of()
            : books.ask((Archive archive) -> archive.measures(run.file().sha256()));
    String seal = "not there: nothing to verify";
    boolean sealed = false;
    String key = "";
    try {
      Verified verified = Verified.of(Books.file(run));
      seal = verified.words();
      sealed = verified.well();
      key = verified.seal().key().map(PublicHalf::fingerprint).orElse("");
    } catch (Unreadable | IOException | RecordReader.NotARecord e) {
      trouble = trouble.isEmpty() ? "The record can't be verified: " + e.getMessage() : trouble;
    }
    String title = "Run of " + Words.minute(run.facts().begun()) + " UTC";
    visit.show(
        "web/desk/run.jte",
        new RunPage(
            visit.layout(title, HistoryPages.KEY),
            run,
            report,
            trouble,
            seal,
            sealed,
            key,
            measures(measures),
            downloads(run),
            texts));
  }

  private static Table measures(List<MeasureRow> measures) {
    List<List<Cell>> rows = new ArrayList<>();
    for (MeasureRow row : measures) {
      rows.add(
          List.of(
              Cell.link(
                  MeasureKind.ofKey(row.kind()).map(MeasureKind::title).orElse(row.kind()),
                  Links.measure(row.kind())),
              Cell.text(Words.orDash(row.place())),
              Cell.text(row.truth()),
              Words.figure(row.value(), DIGITS),
              Words.figure(row.half(), 2),
              Cell.text(row.unit()),
              row.word().map(w -> Cell.marked(Words.mark(w), w, w)).orElse(Cell.text("–"))));
    }
    return new Table(
        "Measures, as the archive keeps them",
        List.of("Measure", "Place", "Known by", "Value", "U", "Unit", "Judged"),
        rows,
        "The archive keeps no measure of this run.");
  }

  private static List<Download> downloads(Heading run) {
    String at = Links.run(run);
    Path record = Books.file(run);
    List<Download> all = new ArrayList<>();
    all.add(new Download("Certificate", at + "/paper/certificate.pdf", "for the customer, PDF"));
    all.add(new Download("Annex", at + "/paper/annex.pdf", "all measures and plots, PDF"));
    all.add(new Download("Workshop sheet", at + "/paper/sheet.pdf", "what to turn, PDF"));
    all.add(new Download("Label", at + "/paper/label.pdf", "for the unit, PDF"));
    all.add(new Download("Report", at + "/file/report.html", "one page, HTML"));
    all.add(new Download("Record", at + "/file/record.jsonl", "all that was read, JSON Lines"));
    if (Files.exists(SealFile.of(record))) {
      all.add(new Download("Seal", at + "/file/record.jsonl.seal", "of the record"));
    }
    for (int i = 1; i <= AmendmentFiles.numbered(record).size(); i++) {
      all.add(
          new Download(
              "Amendment " + i, at + "/file/record.jsonl.amendment-" + i, "of the record"));
    }
    all.add(new Download("Judgement", at + "/file/judgement.json", "JSON"));
    all.add(new Download("Measures", at + "/file/measures.csv", "a row for each, CSV"));
    all.add(new Download("Samples", at + "/file/samples.csv", "a row for each reading, CSV"));
    return all;
  }

  private void file(Visit visit) throws Exception {
    Heading run = books.run(visit.path("id"));
    Path record = Books.file(run);
    String name = visit.path("name");
    switch (name) {
      case "record.jsonl" -> stream(visit, record, JSON_LINES);
      case "record.jsonl.seal" -> stream(visit, SealFile.of(record), JSON_LINES);
      case "report.html" ->
          text(
              visit,
              run,
              ".html",
              "text/html; charset=utf-8",
              aids -> Reports.html(aids, record, Optional.empty()));
      case "judgement.json" ->
          text(visit, run, ".json", "application/json", aids -> new JsonReport().json(aids));
      case "measures.csv" ->
          text(
              visit,
              run,
              "-measures.csv",
              CSV,
              aids -> MeasuresCsv.text(List.of(new MeasuresCsv.Run("", aids.run()))));
      case "samples.csv" ->
          text(visit, run, "-samples.csv", CSV, aids -> SamplesCsv.text(aids.run().record()));
      default -> amendment(visit, record, name);
    }
  }

  private void amendment(Visit visit, Path record, String name) throws Refusal, IOException {
    for (Path each : AmendmentFiles.numbered(record)) {
      String end =
          each.getFileName().toString().substring(record.getFileName().toString().length());
      if (name.equals("record.jsonl" + end)) {
        stream(visit, each, JSON_LINES);
        return;
      }
    }
    throw Refusal.notThere("There is no such file of a run. The page of the run lists them all.");
  }

  private static void stream(Visit visit, Path file, String type) throws Refusal, IOException {
    if (!Files.isRegularFile(file)) {
      throw Refusal.notThere(
          file.getFileName() + " is not in its folder any more. Put it back from a copy.");
    }
    visit.download(
        file.getFileName().toString(), type, Files.newInputStream(file), Files.size(file));
  }

  private void text(
      Visit visit, Heading run, String end, String type, Judgements.Use<String> written)
      throws Exception {
    String name = run.file().name();
    String base =
        name.endsWith(RecordFiles.RECORD_END)
            ? name.substring(0, name.length() - RecordFiles.RECORD_END.length())
            : name;
    String text = judgements.with(run, written);
    visit.download(base + end, type, text.getBytes(StandardCharsets.UTF_8));
  }

  private static PaperSort sort(String name) throws Refusal {
    return PaperSort.of(name.replaceFirst("\\.pdf$", ""))
        .filter(sort -> sort != PaperSort.PAGE && name.endsWith(".pdf"))
        .orElseThrow(
            () ->
                Refusal.notThere(
                    "There is no such paper; there are certificate.pdf, annex.pdf, sheet.pdf and"
                        + " label.pdf."));
  }

  private static LabelSize label(Visit visit) {
    return visit.query("size").flatMap(LabelSize::of).orElse(LabelSize.SMALL);
  }

  private void paper(Visit visit) throws Exception {
    PaperSort sort = sort(visit.path("name"));
    Heading run = books.run(visit.path("id"));
    Path record = Books.file(run);
    byte[] pdf =
        judgements.with(
            run,
            aids -> pdf(sort, Subject.of(FiledRecords.of(record, aids)), record, label(visit)));
    visit.download(new RecordFiles(record).paper(sort.key()).getFileName().toString(), PDF, pdf);
  }

  private byte[] pdf(PaperSort sort, Subject subject, Path record, LabelSize label)
      throws WrongRequest {
    Issue issue = Issuing.draft(subject, record, holdings.stated(), holdings.program());
    return sort.pdf(subject, issue, label);
  }

  /** Of the unit as found and as left, where there are both; else of the run that there is. */
  private void jobPaper(Visit visit) throws Exception {
    PaperSort sort = sort(visit.path("name"));
    HistoryPages.Job job = HistoryPages.job(books, visit);
    Heading found =
        job.asFound()
            .orElseThrow(
                () -> Refusal.notThere("This job has no whole run yet, so it has no papers."));
    if (job.asLeft().isEmpty()) {
      visit.goTo(Links.run(found) + "/paper/" + sort.key() + ".pdf");
      return;
    }
    Path left = Books.file(job.asLeft().get());
    requireThere(Books.file(found));
    requireThere(left);
    Subject subject = new AdjustedReport(Books.file(found), left, "").subject();
    String name =
        new RecordFiles(left).paper("with-as-found-" + sort.key()).getFileName().toString();
    visit.download(name, PDF, pdf(sort, subject, left, label(visit)));
  }

  private static void requireThere(Path record) throws Refusal {
    if (!Files.isRegularFile(record)) {
      throw Refusal.notThere(
          "The record " + record.getFileName() + " is not in its folder any more. Put it back.");
    }
  }

  /**
   * Two runs.
   *
   * @param first one of them
   * @param second the other
   * @param facts what is stated of them and differs
   * @param measures those that differ, or all
   * @param words how many differ, in a sentence
   * @param drawing both in one picture
   * @param query what was asked
   */
  public record ComparePage(
      Layout layout,
      Heading first,
      Heading second,
      Table facts,
      Table measures,
      String words,
      Optional<Drawing> drawing,
      Query query) {}

  static ComparedRuns compared(Judgements judgements, Heading first, Heading second)
      throws Exception {
    JudgedRun one = judgements.with(first, TwinAndCauses::run);
    JudgedRun other = judgements.with(second, TwinAndCauses::run);
    return ComparedRuns.of(one, other);
  }

  private void compare(Visit visit) throws Exception {
    Query query = Query.of(visit, "a", "b", "all");
    if (query.get("a").isEmpty() || query.get("b").isEmpty()) {
      throw Refusal.wrong("Choose two runs: the page of a unit lists them all.");
    }
    Heading first = books.run(query.get("a"));
    Heading second = books.run(query.get("b"));
    ComparedRuns compared = compared(judgements, first, second);
    boolean all = !query.get("all").isEmpty();
    Table measures = pairs(compared, all);
    if (Table.asked(visit)) {
      pairs(compared, true).download(visit, "compared");
      return;
    }
    long differ = compared.pairs().stream().filter(Pair::differ).count();
    String words =
        differ
            + " of "
            + compared.pairs().size()
            + " measures differ beyond their U (E_n above 1, ISO/IEC 17043).";
    visit.show(
        "web/desk/compare.jte",
        new ComparePage(
            visit.layout("Two runs", HistoryPages.KEY),
            first,
            second,
            facts(compared),
            measures,
            words,
            compared.picture(),
            query));
  }

  private static Table facts(ComparedRuns compared) {
    List<List<Cell>> rows = new ArrayList<>();
    for (ComparedRuns.Fact fact : compared.differing()) {
      rows.add(List.of(Cell.text(fact.name()), Cell.text(fact.first()), Cell.text(fact.second())));
    }
    return new Table(
        "What is stated of them and differs",
        List.of("Fact", "Run 1", "Run 2"),
        rows,
        "Nothing that is stated of them differs.");
  }

  private static Table pairs(ComparedRuns compared, boolean all) {
    List<List<Cell>> rows = new ArrayList<>();
    for (Pair pair : compared.pairs()) {
      if (all || pair.differ()) {
        rows.add(row(pair));
      }
    }
    return new Table(
        all ? "All measures" : "Measures that differ beyond their U",
        List.of("Measure", "Known by", "Run 1", "U", "Run 2", "U of 2", "Unit", "E_n", "Differ"),
        rows,
        "No measure differs beyond its U.");
  }

  private static List<Cell> row(Pair pair) {
    OptionalDouble score = pair.normalised();
    return List.of(
        Cell.link(pair.kind().title() + pair.place().behind(), Links.measure(pair.kind().key())),
        Cell.text(pair.truth().text()),
        Words.figure(pair.first().value(), DIGITS),
        Words.figure(pair.first().half(), DIGITS),
        Words.figure(pair.second().value(), DIGITS),
        Words.figure(pair.second().half(), DIGITS),
        Cell.text(pair.kind().unit()),
        score.isPresent()
            ? Cell.figure(score.getAsDouble(), Numbers.fixed(score.getAsDouble(), 1))
            : Cell.noFigure(),
        Cell.text(pair.differ() ? "yes" : score.isPresent() ? "no" : "can't be told"));
  }
}

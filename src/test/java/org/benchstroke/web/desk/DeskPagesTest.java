package org.benchstroke.web.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.benchstroke.web.desk.DeskShop.text;

import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.Reports;
import org.benchstroke.app.history.CapabilityStudy;
import org.benchstroke.app.history.ChosenRuns;
import org.benchstroke.app.history.DueDates;
import org.benchstroke.app.history.FaultCounts;
import org.benchstroke.app.history.MeasureChoice;
import org.benchstroke.app.history.Naming;
import org.benchstroke.app.history.Trend;
import org.benchstroke.app.history.Yields;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.JobLine;
import org.benchstroke.archive.MadeUpRuns;
import org.benchstroke.archive.RunFilter;
import org.benchstroke.bench.BenchFileReader;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.statistics.Capability;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.ComparedRuns;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.papers.Methods;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.papers.SamplesCsv;
import org.benchstroke.papers.pdf.PdfFiles;
import org.benchstroke.procedure.Expansion;
import org.benchstroke.record.SealFile;
import org.benchstroke.tests.ProcedureReader;
import org.benchstroke.unit.MeasureKind;
import org.benchstroke.unit.UnitTypeReader;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The desk's pages over real sockets: their figures are those of the archive and of the records.
 */
@Timeout(300)
class DeskPagesTest {
  private static final ChosenRuns MADE_UP =
      chosen(Optional.of("Made-up type 4"), Optional.empty(), false);
  private static final String OF_TYPE = "type=Made-up%20type%204&runs=real";
  private static final Pattern LINK = Pattern.compile("href=\"(/desk/run/[0-9a-f]+)\"");

  @TempDir static Path folder;
  private static DeskShop shop;

  @BeforeAll
  static void open() throws Exception {
    shop = new DeskShop(folder).open();
  }

  @AfterAll
  static void close() {
    shop.close();
  }

  private static ChosenRuns chosen(
      Optional<String> type, Optional<String> bench, boolean simulated) {
    Optional<String> any = Optional.empty();
    return new ChosenRuns(any, type, bench, any, any, any, simulated);
  }

  private static Heading found() throws Exception {
    return simulated().get(1);
  }

  private static Heading left() throws Exception {
    return simulated().get(0);
  }

  /** The two simulated runs, the newer first. */
  private static List<Heading> simulated() throws Exception {
    return shop.archive.runs(RunFilter.ALL, 1000).stream()
        .filter(run -> run.facts().simulated())
        .toList();
  }

  private static String job() throws Exception {
    return Links.job(found().labels().order(), found().labels().serial(), true);
  }

  /** The cells of a column of a table that was taken away. */
  private static List<String> column(String csv, int column) throws Exception {
    try (CSVParser parser = CSVParser.parse(csv, CSVFormat.RFC4180)) {
      return parser.getRecords().stream().skip(1).map(row -> row.get(column)).toList();
    }
  }

  private static void refused(String path, int status, String... words) throws Exception {
    HttpResponse<byte[]> answer = shop.get(path);
    assertThat(answer.statusCode()).as(path).isEqualTo(status);
    for (String word : words) {
      assertThat(text(answer)).as(path).contains(word);
    }
  }

  @Test
  void theHistoryListsTheJobsOfTheArchivePageByPage() throws Exception {
    List<JobLine> jobs = shop.archive.jobs(RunFilter.ALL, 1000);
    List<List<String>> listed = new ArrayList<>();
    for (int column = 0; column < 6; column++) {
      listed.add(new ArrayList<>());
      for (int page = 1; page <= 2; page++) {
        String csv = shop.page("/desk?as=csv&page=" + page);
        assertThat(csv).startsWith("\ufeffSerial,Order,Unit type,As found,As left,Runs");
        listed.get(column).addAll(column(csv, column));
      }
    }
    assertThat(jobs.size()).isBetween(41, 80);
    assertThat(listed)
        .containsExactly(
            jobs.stream().map(JobLine::serial).toList(),
            jobs.stream().map(JobLine::order).toList(),
            jobs.stream().map(JobLine::unitType).toList(),
            jobs.stream().map(job -> job.asFound().orElse("–")).toList(),
            jobs.stream().map(job -> job.asLeft().orElse("–")).toList(),
            jobs.stream().map(job -> String.valueOf(job.attempts())).toList());
    assertThat(shop.page("/desk")).contains("Older →").doesNotContain("← Newer");
    assertThat(shop.page("/desk?page=2")).contains("← Newer").doesNotContain("Older →");
    refused("/desk?page=0", 422, "page: found");
  }

  @Test
  void runsAreFilteredAsTheArchiveFiltersThem() throws Exception {
    Optional<String> any = Optional.empty();
    RunFilter failed =
        new RunFilter(
            any,
            any,
            Optional.of("Made-up type 3"),
            Optional.of("fail"),
            Optional.of("Ann"),
            Optional.of("Bench 3"),
            Optional.empty(),
            Optional.empty());
    List<String> begun =
        shop.archive.runs(failed, 100).stream().map(r -> Words.minute(r.facts().begun())).toList();
    assertThat(begun).isNotEmpty();
    String asked =
        "/desk?what=runs&type=Made-up%20type%203&verdict=fail&operator=Ann&bench=Bench%203";
    assertThat(column(shop.page(asked + "&as=csv"), 0)).isEqualTo(begun);
    String first = Words.day(MadeUpRuns.START);
    String ofADay = shop.page("/desk?what=runs&as=csv&since=" + first + "&until=" + first);
    assertThat(column(ofADay, 0)).allMatch(minute -> minute.startsWith(first)).isNotEmpty();
    refused("/desk?since=tomorrow", 422, "since: found", "allowed is a day");
  }

  @Test
  void aScanLeadsStraightToItsPage() throws Exception {
    String serial = MadeUpRuns.serial(4);
    HttpResponse<byte[]> scanned = shop.get("/desk?q=" + serial);
    assertThat(scanned.statusCode()).isEqualTo(303);
    assertThat(scanned.headers().firstValue("Location")).contains(Links.unit(serial));
    String number = ReportPages.number(Reports.judge(shop.found));
    assertThat(shop.get("/desk?q=" + number).headers().firstValue("Location"))
        .contains(Links.run(found()));
    String part = shop.page("/desk?what=runs&as=csv&q=tAg-4");
    assertThat(column(part, 1)).isNotEmpty().allMatch(s -> s.startsWith("QT-"));
    assertThat(shop.page("/desk?q=nowhere_%25")).contains("Nothing in the archive is like that.");
  }

  @Test
  void whatIsNotThereIsSaidWithWhatToDo() throws Exception {
    refused("/desk/unit?serial=NOPE-1", 404, "the serial number NOPE-1", "Look in the history");
    refused("/desk/unit", 404, "names no serial");
    refused("/desk/job?order=x&serial=NOPE-1", 404, "no job of order");
    refused("/desk/run/0123456789abcdef", 404, "no run of this address");
    refused("/desk/run/..%2F..%2Fpom.xml", 404);
    refused("/desk/run/%27%20OR%201=1", 404);
    refused(Links.run(found()) + "/file/passwd", 404, "no such file");
    refused(Links.run(found()) + "/paper/page.pdf", 404, "no such paper");
    refused("/desk/file/..%2F..%2Fpom.xml", 404);
    refused("/desk/benches/nope.toml", 404, "no bench file");
    refused("/desk/procedures/nope.toml", 404, "no file of this name");
    refused("/desk/compare?a=1", 422, "Choose two runs");
    refused("/help/measure/nope", 404, "no measure with this key");
  }

  @Test
  void whateverStandsInALabelIsText() throws Exception {
    for (String path :
        List.of(
            "/desk?q=script&what=runs",
            "/desk?q=" + Query.encoded("<script>"),
            Links.unit(DeskShop.NASTY),
            Links.job(DeskShop.NASTY, DeskShop.NASTY, false),
            "/desk/unit?serial=%3Cscript%3Ealert(2)%3C/script%3E",
            "/desk/trend?measure=%22%3E%3Cscript%3Ealert(2)&serial=%3Cscript%3Ealert(2)")) {
      String page = text(shop.get(path));
      assertThat(page).as(path).contains("&lt;script").doesNotContain("<script>alert");
    }
    // a spreadsheet must not take it for a formula, nor for two cells
    String csv = shop.page("/desk?what=runs&as=csv&q=script");
    assertThat(csv.lines()).hasSize(2);
    assertThat(csv).contains("\"" + DeskShop.NASTY.replace("\"", "\"\"") + "\"");
  }

  @Test
  void aUnitShowsItsJobsAndAJobItsTwoEnds() throws Exception {
    String unit = shop.page(Links.unit(found().labels().serial()));
    assertThat(unit).contains("As found", "As left", "failed", "passed", Links.run(found()));
    String job = shop.page(job());
    assertThat(job.indexOf("failed")).isLessThan(job.indexOf("passed"));
    assertThat(job)
        .contains("did not pass first time", "as found up", "as left down", "<svg xmlns")
        .contains(found().result().reason().split(",", -1)[0]);
    String made = shop.page(Links.unit(MadeUpRuns.serial(1)));
    assertThat(made).contains("Made up.", "order 0");
  }

  @Test
  void aRunShowsWhatItsRecordGives() throws Exception {
    JudgedRun run = Reports.judge(shop.found);
    String page = shop.page(Links.run(found()));
    assertThat(page)
        .contains(run.verdict().ofUnit(), ReportPages.number(run), "sealed and whole")
        .contains("What is “travel error”?", "<summary>Measures</summary>", "SIMULATED")
        .contains("/desk/run/" + Links.id(found()) + "/paper/certificate.pdf");
    assertThat(page.indexOf("Not met")).isLessThan(page.indexOf("Likely causes"));
    assertThat(page.indexOf("Likely causes")).isLessThan(page.indexOf("<details class=\"fold rep"));
  }

  @Test
  void aChangedRecordIsShownWhereItWasChanged() throws Exception {
    byte[] before = Files.readAllBytes(shop.left);
    String text = new String(before, StandardCharsets.UTF_8);
    int third = text.indexOf('\n', text.indexOf('\n', text.indexOf('\n') + 1) + 1);
    int digit = third - 1;
    while (!Character.isDigit(text.charAt(digit))) {
      digit--;
    }
    byte[] changed = before.clone();
    changed[digit] = (byte) (before[digit] == '0' ? '1' : '0');
    try {
      Files.write(shop.left, changed);
      assertThat(shop.page(Links.run(left())))
          .contains("CHANGED: line 3 is not the one that was sealed")
          .doesNotContain("sealed and whole");
    } finally {
      Files.write(shop.left, before);
    }
    assertThat(shop.page(Links.run(left()))).contains("sealed and whole");
  }

  @Test
  void aRunWhoseRecordIsGoneIsShownAsTheArchiveKeepsIt() throws Exception {
    Heading made = shop.archive.runs(RunFilter.ofSerial(MadeUpRuns.serial(5)), 1).get(0);
    String page = shop.page(Links.run(made));
    assertThat(page)
        .contains("is not in its folder any more", "As the archive keeps it", "Made up.");
    for (var row : shop.archive.measures(made.file().sha256())) {
      assertThat(page).contains(Numbers.significant(row.value().orElseThrow(), 3));
    }
    refused(Links.run(made) + "/file/record.jsonl", 404, "not in its folder");
    refused(Links.run(made) + "/paper/sheet.pdf", 404, "not in its folder");
  }

  private static HttpResponse<byte[]> taken(String name) throws Exception {
    HttpResponse<byte[]> answer = shop.get(Links.run(found()) + "/file/" + name);
    assertThat(answer.statusCode()).as(name).isEqualTo(200);
    return answer;
  }

  @Test
  void whatIsTakenAwayIsByteForByteWhatThereIs() throws Exception {
    HttpResponse<byte[]> record = taken("record.jsonl");
    assertThat(record.body()).isEqualTo(Files.readAllBytes(shop.found));
    assertThat(record.headers().firstValue("Content-Disposition"))
        .contains("attachment; filename=\"found.jsonl\"");
    assertThat(record.headers().firstValueAsLong("Content-Length"))
        .hasValue(Files.size(shop.found));
    assertThat(taken("record.jsonl.seal").body())
        .isEqualTo(Files.readAllBytes(SealFile.of(shop.found)));
    TwinAndCauses aids = new TwinAndCauses(Reports.judge(shop.found));
    assertThat(text(taken("judgement.json"))).isEqualTo(new JsonReport().json(aids));
    assertThat(text(taken("report.html")))
        .isEqualTo(Reports.html(aids, shop.found, Optional.empty()));
    assertThat(text(taken("samples.csv"))).isEqualTo(SamplesCsv.text(aids.run().record()));
    assertThat(text(taken("measures.csv")).lines().count())
        .isEqualTo(1L + aids.run().judgements().size());
  }

  @Test
  void theCertificateOfAJobHoldsBothRecords() throws Exception {
    HttpResponse<byte[]> paper =
        shop.get(job().replace("/desk/job?", "/desk/job/paper/certificate.pdf?"));
    assertThat(paper.statusCode()).as(text(paper)).isEqualTo(200);
    assertThat(paper.headers().firstValue("Content-Disposition"))
        .contains("attachment; filename=\"left-with-as-found-certificate.pdf\"");
    Map<String, byte[]> files = PdfFiles.of(paper.body());
    assertThat(files.get("found.jsonl")).isEqualTo(Files.readAllBytes(shop.found));
    assertThat(files.get("left.jsonl")).isEqualTo(Files.readAllBytes(shop.left));
    HttpResponse<byte[]> label = shop.get(Links.run(found()) + "/paper/label.pdf");
    assertThat(PdfFiles.isPdf(label.body())).isTrue();
  }

  @Test
  void twoRunsSideBySide() throws Exception {
    ComparedRuns compared = ComparedRuns.of(Reports.judge(shop.found), Reports.judge(shop.left));
    String path = "/desk/compare?a=" + Links.id(found()) + "&b=" + Links.id(left());
    long differ = compared.pairs().stream().filter(ComparedRuns.Pair::differ).count();
    assertThat(differ).isPositive();
    assertThat(shop.page(path))
        .contains(differ + " of " + compared.pairs().size() + " measures differ")
        .contains("<svg xmlns", "run 1 up");
    String csv = shop.page(path + "&as=csv");
    assertThat(column(csv, 2))
        .isEqualTo(
            compared.pairs().stream()
                .map(p -> p.first().value())
                .map(v -> v.isPresent() ? Numbers.exact(v.getAsDouble()) : "")
                .toList());
  }

  @Test
  void theTrendIsTheOneOfTheArchive() throws Exception {
    var choice =
        new MeasureChoice(
            "travel_error_pct", Optional.of("side 0 up"), Optional.of("feedback"), Naming.FIELDS);
    ChosenRuns bench = chosen(Optional.empty(), Optional.of("Bench 0"), false);
    Trend trend = Trend.of(choice.of(bench.of(shop.archive, Naming.FIELDS)), OptionalInt.empty());
    String asked = "/desk/trend?measure=travel_error_pct&bench=Bench%200&runs=real";
    String series = shop.page(asked);
    assertThat(series).contains("Choose where", "side 0 up", "side 80 up").doesNotContain("EWMA");
    String one = asked + "&place=side%200%20up&truth=feedback";
    String page = shop.page(one);
    assertThat(trend.charts()).hasSize(3);
    trend.charts().forEach(c -> assertThat(page).contains(Trend.figure(c.centre())));
    assertThat(page).contains("individual values", trend.baselineWords().orElseThrow());
    List<String> values = new ArrayList<>();
    for (double value : trend.series().numbers()) {
      values.add(0, Numbers.exact(value));
    }
    assertThat(column(shop.page(one + "&as=csv"), 3)).isEqualTo(values);
    assertThat(shop.page(one + "&as=svg")).startsWith("<?xml").contains("individual values");
    assertThat(shop.page("/desk/trend?measure=travel_error_pct"))
        .contains("Trend: values of all units together have no trend; add serial, type or bench.");
    assertThat(shop.page("/desk/trend?measure=nope&serial=1")).contains("Measure: found");
  }

  @Test
  void theYieldAndTheFaultsAreThoseOfTheArchive() throws Exception {
    Yields yields =
        Yields.of(
            chosen(Optional.empty(), Optional.empty(), false).of(shop.archive, Naming.FIELDS),
            Yields.By.BENCH);
    String csv = shop.page("/desk/yield?by=bench&runs=real&as=csv");
    List<String> rows = new ArrayList<>();
    yields
        .lines()
        .forEach(
            l ->
                rows.add(
                    l.name()
                        + ","
                        + l.yield().tested()
                        + ","
                        + l.yield().passed()
                        + ","
                        + Numbers.exact(100.0 * l.yield().share())));
    assertThat(rows).hasSize(4);
    rows.forEach(row -> assertThat(csv).contains("\n" + row + ","));
    FaultCounts counts =
        FaultCounts.of(MADE_UP.of(shop.archive, Naming.FIELDS), FaultCounts.Of.CAUSES);
    String faults = shop.page("/desk/faults?" + OF_TYPE);
    assertThat(counts.pareto().rows()).isNotEmpty();
    assertThat(faults)
        .contains("Likely causes of " + counts.jobs() + " jobs as found", "<svg xmlns")
        .contains(counts.name(counts.pareto().rows().get(0).cause()));
    assertThat(shop.page("/desk/faults?runs=simulated")).contains("SIMULATED");
  }

  @Test
  void theCapabilityIsTheOneOfTheArchive() throws Exception {
    ChosenRuns bench = chosen(Optional.empty(), Optional.of("Bench 0"), false);
    var choice =
        new MeasureChoice(
            "travel_error_pct", Optional.of("side 0 up"), Optional.of("feedback"), Naming.FIELDS);
    CapabilityStudy study =
        CapabilityStudy.of(
            choice.of(bench.of(shop.archive, Naming.FIELDS)),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            Naming.FIELDS);
    Capability found = (Capability) study.answer();
    String asked =
        "/desk/capability?measure=travel_error_pct&bench=Bench%200&runs=real"
            + "&place=side%200%20up&truth=feedback";
    assertThat(column(shop.page(asked + "&as=csv"), 1))
        .isEqualTo(
            CapabilityStudy.indices(found).values().stream()
                .map(index -> Numbers.exact(index.value()))
                .toList());
    assertThat(shop.page(asked)).contains(CapabilityStudy.advice(found));
    assertThat(shop.page(asked + "&low=2&high=1")).contains("Low: found 2, allowed is less");
    assertThat(shop.page(asked + "&high=x")).contains("High: found");
  }

  /** No record of the made-up runs is there, so none of them can be judged again: it is said. */
  @Test
  void lookingBackNamesWhatCanNotBeJudgedAgain() throws Exception {
    String asked = "/desk/look-back?instrument=S1&since=2023-01-01&error=0.02%20mA";
    String page = shop.page(asked);
    assertThat(page).contains("not every verdict is kept", "its record is not in records");
    long with =
        shop.archive.runs(RunFilter.ALL, 1000).stream()
            .filter(run -> !run.facts().simulated())
            .filter(run -> number(run) % 4 == 1)
            .count();
    assertThat(shop.page(asked + "&as=csv").lines().count()).isEqualTo(1 + with);
    assertThat(shop.page("/desk/look-back?error=0.02mA&since=2023-01-01"))
        .contains("whose error is it? Add instrument or bench");
    assertThat(shop.page("/desk/look-back?error=much&instrument=S1&since=2023-01-01"))
        .contains("rror: found \"much\"");
  }

  private static int number(Heading run) {
    return Integer.parseInt(run.file().name().replaceAll("[^0-9]", ""));
  }

  @Test
  void whatFallsDueIsWhatTheFilesAndTheArchiveSay() throws Exception {
    List<DueDates.Line> all = new ArrayList<>();
    try (Stream<Path> files = Files.list(Path.of("demo-data/benches"))) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        all.addAll(DueDates.of(BenchFileReader.read(file)));
      }
    }
    all.addAll(DueDates.of(shop.archive));
    LocalDate today = LocalDate.ofInstant(SystemClock.realTime().utc(), ZoneOffset.UTC);
    int days = 36_500;
    List<String> due =
        DueDates.soon(all, today, days).stream()
            .map(line -> line.due().orElseThrow().toString())
            .toList();
    assertThat(column(shop.page("/desk/due?as=csv&days=" + days), 1)).isEqualTo(due);
    assertThat(shop.page("/desk/due?days=0")).contains("instruments");
  }

  @Test
  void benchesProceduresAndUnitTypesAreShownAndCanBeTaken() throws Exception {
    String bench = shop.page("/desk/benches/wall-bench.toml");
    for (var spec :
        BenchFileReader.read(Path.of("demo-data/benches/wall-bench.toml")).instruments()) {
      assertThat(bench).contains(spec.serial(), spec.calibration().due().toString());
    }
    assertThat(bench).contains("No check of this bench yet", "Probe it now");
    Expansion plan =
        Expansion.of(
            ProcedureReader.read(Path.of("demo-data/procedures/routine-acceptance.toml")),
            UnitTypeReader.read(Path.of("demo-data/unit-types/quarter-turn-15s.toml")),
            0.05);
    assertThat(shop.page("/desk/procedures/routine-acceptance.toml"))
        .contains("about " + Words.minutes(plan.seconds()));
    assertThat(shop.page("/desk/procedures")).contains(Words.minutes(plan.seconds()));
    assertThat(shop.page("/desk/unit-types/pneumatic-spring-closes-3s.toml"))
        .contains(
            "Driven by air against a spring", "/help/cautions#air-and-spring", "travel error");
    assertThat(shop.get("/desk/file/wall-bench.toml").body())
        .isEqualTo(Files.readAllBytes(Path.of("demo-data/benches/wall-bench.toml")));
  }

  @Test
  void everyMeasureExplainsItselfWithItsSource() throws Exception {
    HelpTexts texts = HelpTexts.read();
    String index = shop.page("/help");
    for (MeasureKind kind : MeasureKind.values()) {
      HelpTexts.Explained told = texts.of(kind);
      assertThat(Methods.of(told.method())).as(kind.key()).isPresent();
      assertThat(List.of(told.what(), told.how(), told.tells()))
          .as(kind.key())
          .allMatch(words -> words.length() > 15 && words.endsWith("."));
      assertThat(index).contains(Links.measure(kind.key()));
    }
    assertThat(shop.page("/help/measure/dead_band_pct"))
        .contains(texts.of(MeasureKind.DEAD_BAND).what(), "ANSI/ISA-51.1-1979", "measures.md");
    assertThat(shop.page("/help/glossary")).contains("id=\"guard-band\"");
    assertThat(shop.page("/help/cautions")).contains("THE UNIT WILL MOVE", "id=\"air-and-spring\"");
  }

  /** The method that the help names is the one by which a measure was taken. */
  @Test
  void theHelpNamesTheMethodsOfTheRecords() throws Exception {
    HelpTexts texts = HelpTexts.read();
    TreeSet<String> seen = new TreeSet<>();
    for (Path record : List.of(shop.found, shop.left)) {
      Reports.judge(record)
          .judgements()
          .forEach(
              each -> {
                MeasureKind kind = each.measure().kind();
                seen.add(kind.key());
                assertThat(texts.of(kind).method())
                    .as(kind.key())
                    .isEqualTo(each.measure().method().replaceFirst("/.*", ""));
              });
    }
    assertThat(seen).hasSizeGreaterThan(5);
  }

  /** A link of a page that leads nowhere is a mistake of ours. */
  @Test
  void noLinkLeadsNowhere() throws Exception {
    TreeSet<String> links = new TreeSet<>();
    Pattern any = Pattern.compile("(?:href|action)=\"(/[^\"#]*)");
    for (String path :
        List.of(
            "/desk",
            "/desk/unit?serial=" + MadeUpRuns.serial(1),
            job(),
            Links.run(found()),
            "/desk/trend",
            "/desk/benches",
            "/desk/benches/wall-bench.toml",
            "/desk/procedures",
            "/desk/unit-types",
            "/help",
            "/help/measure/dead_band_pct")) {
      Matcher link = any.matcher(shop.page(path));
      while (link.find()) {
        links.add(link.group(1).replace("&amp;", "&"));
      }
    }
    links.removeIf(
        link -> link.endsWith(".pdf") || link.contains(".pdf?") || link.endsWith("/probe"));
    links.removeIf(link -> link.equals("/") || link.equals("/stop"));
    assertThat(links).hasSizeGreaterThan(60);
    for (String link : links) {
      assertThat(shop.get(link).statusCode()).as(link).isIn(200, 422);
    }
    assertThat(LINK.matcher(shop.page("/desk?what=runs")).find()).isTrue();
  }
}

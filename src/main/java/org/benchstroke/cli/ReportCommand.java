package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.AdjustedReport;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.FiledRecords;
import org.benchstroke.app.IssueFiles;
import org.benchstroke.app.OutputFiles;
import org.benchstroke.app.PaperSort;
import org.benchstroke.app.RecordFiles;
import org.benchstroke.app.Reports;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.papers.SamplesCsv;
import org.benchstroke.papers.Signatory;
import org.benchstroke.papers.sheets.Issue;
import org.benchstroke.papers.sheets.Subject;
import org.benchstroke.record.RecordReader;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Writes the report of a record again. */
@Command(
    name = "report",
    description = {
      Commands.REPORT,
      "The report is one HTML page that needs no other file; with --paper it is a paper for the"
          + " customer, the workshop or the unit, as PDF. The exit code is that of the"
          + " judgement. With --as-found it is one report of two records of a unit: as found,"
          + " and as left after an adjustment, whose exit code it is."
    },
    mixinStandardHelpOptions = true)
final class ReportCommand implements Callable<Integer>, LeavesMore {
  @Parameters(
      paramLabel = "RECORD",
      arity = "1..*",
      description = "The record, a .jsonl file; several for the tables alone.")
  private List<Path> given;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Where to write it (default: beside the record).")
  private Optional<Path> out;

  @Option(
      names = "--csv",
      paramLabel = "FILE",
      description = "Writes the raw samples there, too, as comma-separated values.")
  private Optional<Path> csv;

  @Option(
      names = "--json",
      paramLabel = "FILE",
      description = "Writes the judgement there, too, as JSON.")
  private Optional<Path> json;

  @Option(
      names = "--as-found",
      paramLabel = "RECORD",
      description =
          "The record of the same unit before it was adjusted; RECORD is then as left, and the"
              + " report has both.")
  private Optional<Path> asFound;

  @Option(
      names = "--adjusted",
      paramLabel = "TEXT",
      description = "With --as-found: what was adjusted, for the report.")
  private String adjusted;

  @Option(
      names = "--authorised-by",
      paramLabel = "NAME",
      description = "Who answers for the report; without it there is a line to sign on.")
  private Optional<String> authorisedBy = Optional.empty();

  @Option(
      names = "--role",
      paramLabel = "TEXT",
      description = "With --authorised-by: the role of that person.")
  private Optional<String> role = Optional.empty();

  @Mixin private PaperOptions papers;

  @Mixin private ShopOption shop;

  @Mixin private TableOptions tables;

  @Mixin private DccOptions certificate;

  @Mixin private ForceOption force;

  @Spec private CommandSpec spec;

  /** Where what is written goes. */
  private record Places(
      OutputFiles.Place report,
      Optional<OutputFiles.Place> json,
      Optional<OutputFiles.Place> samples,
      Optional<OutputFiles.Place> certificate,
      TableOptions.Places tables) {}

  @Override
  public Integer call() throws RecordReader.NotARecord, FileMistakes, WrongRequest {
    if (adjusted != null && asFound.isEmpty()) {
      throw new WrongRequest(
          "--adjusted: needs --as-found with the record from before the adjustment");
    }
    PaperSort sort = papers.sort();
    OutputFiles outputs = force.outputs();
    records().forEach(each -> outputs.given("record", each));
    if (given.size() > 1) {
      return tables.ofMany(given, outputs, spec);
    }
    Places places =
        new Places(
            outputs.place("--out", out.isPresent() ? out.get() : usualName(sort), sort.kind()),
            outputs.place("--json", json, OutputFiles.Kind.JUDGEMENT),
            outputs.place("--csv", csv, OutputFiles.Kind.SAMPLES),
            certificate.place(outputs),
            tables.places(outputs));
    return asFound.isEmpty() ? one(sort, places) : both(sort, asFound.get(), places);
  }

  private Optional<Signatory> authorised() throws WrongRequest {
    if (authorisedBy.isPresent() != role.isPresent()) {
      throw new WrongRequest("--authorised-by and --role belong together: give both, or neither");
    }
    if (authorisedBy.isEmpty()) {
      return Optional.empty();
    }
    WrongRequest.requireWords("--authorised-by", authorisedBy.get());
    WrongRequest.requireWords("--role", role.get());
    return Optional.of(new Signatory(authorisedBy.get().strip(), role.get().strip()));
  }

  /** A report of both stands beside that of the record alone, a new issue beside the old one. */
  private Path usualName(PaperSort sort) throws WrongRequest {
    Path alone = sort.beside(new RecordFiles(record()));
    String both = asFound.isEmpty() ? "" : "-with-as-found";
    boolean again = sort == PaperSort.CERTIFICATE && papers.supersedes().isPresent();
    String issue = again ? "-issue-" + (IssueFiles.of(record()).count() + 1) : "";
    String name = alone.getFileName().toString();
    return alone.resolveSibling(name.replaceFirst("(\\.[a-z]+)$", both + issue + "$1"));
  }

  private Path record() {
    return given.get(0);
  }

  private List<Path> records() {
    List<Path> records = new ArrayList<>(given);
    asFound.ifPresent(records::add);
    return records;
  }

  private int one(PaperSort sort, Places places)
      throws RecordReader.NotARecord, FileMistakes, WrongRequest {
    JudgedRun run = Reports.judge(record());
    TwinAndCauses aids = new TwinAndCauses(run);
    Optional<Signatory> by = authorised();
    papers(sort, places, () -> Subject.of(FiledRecords.of(record(), aids)), by);
    if (sort == PaperSort.PAGE) {
      write("Report:  ", places.report(), Reports.html(aids, record(), by));
    }
    write("JSON:    ", places.json(), () -> new JsonReport().json(aids, by));
    write("Samples: ", places.samples(), () -> SamplesCsv.text(run.record()));
    TableOptions.write(
        places.tables(), List.of(TableOptions.run("", record(), aids)), Shown.out(spec));
    return ExitCode.of(run);
  }

  private int both(PaperSort sort, Path found, Places places)
      throws RecordReader.NotARecord, FileMistakes, WrongRequest {
    AdjustedReport report =
        new AdjustedReport(found, record(), adjusted == null ? "" : adjusted.strip());
    Optional<Signatory> by = authorised();
    Shown.out(spec).println(report.summary());
    papers(sort, places, report::subject, by);
    if (sort == PaperSort.PAGE) {
      write("Report:  ", places.report(), report.html(by));
    }
    write("JSON:    ", places.json(), () -> report.json(by));
    write("Samples: ", places.samples(), () -> SamplesCsv.text(report.asLeft().record()));
    TableOptions.write(places.tables(), report.rows(), Shown.out(spec));
    return ExitCode.of(report.asLeft());
  }

  /** What a paper is about, read where one is written. */
  private interface About {
    Subject subject() throws WrongRequest;
  }

  /** The paper and the XML: what is issued together has one number. */
  private void papers(PaperSort sort, Places places, About about, Optional<Signatory> by)
      throws WrongRequest, FileMistakes {
    if (sort == PaperSort.PAGE && !certificate.asked()) {
      requireIssue(sort);
      return;
    }
    Subject subject = about.subject();
    Issue issue = issue(sort, subject, by);
    if (sort != PaperSort.PAGE) {
      places.report().write(papers.pdf(sort, subject, issue));
      Shown.out(spec).println("Paper:   " + places.report().file());
      sort.obstacles(subject, issue)
          .forEach(why -> Shown.err(spec).println("A test report, no certificate: " + why));
    }
    write("XML:     ", places.certificate(), () -> certificate.text(subject, issue));
  }

  /** What somebody answers for is issued and gets its number; all else bears the one there is. */
  private Issue issue(PaperSort sort, Subject subject, Optional<Signatory> by)
      throws WrongRequest, FileMistakes {
    Issue issue = papers.issue(subject.run().aids().run(), shop.read(spec), by);
    if (certificate.asked()) {
      certificate.require(subject, issue);
    }
    IssueFiles issues = IssueFiles.of(record());
    Optional<String> reason = papers.supersedes();
    boolean issued = sort == PaperSort.CERTIFICATE || certificate.asked();
    if (by.isPresent() && issued) {
      return issues.issued(subject, issue, reason);
    }
    requireIssue(sort);
    return issues.beside(subject, issue);
  }

  private void requireIssue(PaperSort sort) throws WrongRequest {
    if (papers.supersedes().isPresent() && !certificate.asked()) {
      throw new WrongRequest(
          sort == PaperSort.CERTIFICATE
              ? "--supersedes: needs --authorised-by and --role: what nobody answers for supersedes"
                  + " nothing"
              : "--supersedes: has a place on a certificate only");
    }
  }

  private void write(String what, Optional<OutputFiles.Place> place, Supplier<String> text)
      throws WrongRequest {
    if (place.isPresent()) {
      write(what, place.get(), text.get());
    }
  }

  private void write(String what, OutputFiles.Place place, String text) throws WrongRequest {
    place.write(text);
    Shown.out(spec).println(what + place.file());
  }
}

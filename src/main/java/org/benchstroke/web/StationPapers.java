package org.benchstroke.web;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.FiledRecords;
import org.benchstroke.app.Issuing;
import org.benchstroke.app.Outcome;
import org.benchstroke.app.PaperSort;
import org.benchstroke.app.RecordFiles;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.stations.AttemptLine;
import org.benchstroke.app.stations.Ended;
import org.benchstroke.app.stations.Station;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Adjustment;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Figures;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.papers.sheets.Issue;
import org.benchstroke.papers.sheets.LabelSize;
import org.benchstroke.papers.sheets.Panel;
import org.benchstroke.papers.sheets.Papers;
import org.benchstroke.papers.sheets.Part;
import org.benchstroke.papers.sheets.SheetPage;
import org.benchstroke.papers.sheets.Subject;

/** What a run left: its verdict on a page, and its papers to be taken away. Any thread. */
public final class StationPapers {
  private static final String PDF = "application/pdf";

  private final Defaults stated;

  StationPapers(Defaults stated) {
    this.stated = stated;
  }

  /** Which station a request is about. */
  interface Which {
    Station of(Visit visit) throws Refusal;
  }

  /**
   * The page after a run.
   *
   * @param one the station
   * @param word of the verdict, large
   * @param shape the name of its drawing
   * @param sentences what belongs to it, most important first
   * @param worst what is furthest off, and by how much; empty where nothing is
   * @param simulation what was simulated; empty on a real bench
   * @param panels what fails, why most likely, what to turn, what to run again
   * @param beside each measure as found and as left; none where there is no as found
   * @param attempts those at this job
   * @param papers what can be taken away; none where nothing is left
   * @param said what else went on
   * @param next the form for the next job
   */
  public record After(
      StationPages.One one,
      String word,
      String shape,
      List<String> sentences,
      String worst,
      String simulation,
      List<Panel> panels,
      List<Row> beside,
      List<Attempt> attempts,
      List<PaperLink> papers,
      List<String> said,
      StationPages.NextJob next) {}

  /** A measure as found and as left. */
  public record Row(
      String what, String found, String foundShape, String left, String leftShape, String limit) {}

  /** An attempt in a line. */
  public record Attempt(int number, String when, String shape, String word, String reason) {}

  /** A paper. */
  public record PaperLink(String kind, String name) {}

  private static final List<PaperLink> LINKS =
      List.of(
          new PaperLink("sheet", "Workshop sheet"),
          new PaperLink("certificate", "Certificate"),
          new PaperLink("annex", "Annex"),
          new PaperLink("label", "Label"),
          new PaperLink("page", "Report"),
          new PaperLink("json", "Judgement, JSON"),
          new PaperLink("record", "Record"));

  void register(Routes routes, Which which) {
    routes.get(
        "/station/{letter}/paper/{kind}",
        Right.READ,
        visit -> paper(visit, which.of(visit).seen().ended()));
  }

  After after(StationPages.One one, StationPages.NextJob next) throws WrongRequest {
    Ended ended = one.seen().ended().orElseThrow();
    if (ended.aids().isEmpty()) {
      return new After(
          one,
          Word.NO_RESULT.text(),
          Shapes.ofVerdict(Word.NO_RESULT),
          ended.said(),
          "",
          "",
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          next);
    }
    TwinAndCauses aids = ended.aids().get();
    synchronized (aids) {
      Subject subject = Subject.of(FiledRecords.of(record(ended), aids));
      SheetPage sheet = Papers.sheetInWords(subject, issue(one.station(), aids));
      return new After(
          one,
          ReportPages.shown(aids.run()).ofUnit(),
          Shapes.ofVerdict(ReportPages.shown(aids.run())),
          sheet.headline().sentences(),
          worst(sheet),
          aids.run().simulated() ? aids.run().simulation() : "",
          sheet.panels(),
          ended.asFound().map(StationPapers::beside).orElse(List.of()),
          attempts(ended.attempts()),
          LINKS,
          ended.said(),
          next);
    }
  }

  /** The first row of what fails, which is the worst. */
  private static String worst(SheetPage sheet) {
    return sheet.panels().stream()
        .flatMap(panel -> panel.parts().stream())
        .filter(Part.Table.class::isInstance)
        .map(Part.Table.class::cast)
        .filter(table -> !table.rows().isEmpty())
        .map(table -> table.rows().get(0))
        .map(
            row ->
                row.get(0).text()
                    + ": "
                    + row.get(1).text()
                    + (row.get(1).note().isEmpty() ? "" : ", " + row.get(1).note()))
        .findFirst()
        .orElse("");
  }

  private static Path record(Ended ended) {
    return ended.outcome().map(Outcome::files).map(RecordFiles::record).orElseThrow();
  }

  private Issue issue(Station station, TwinAndCauses aids) throws WrongRequest {
    return Issuing.now(aids.run(), stated, Optional.empty(), station.place().tool());
  }

  private static List<Attempt> attempts(List<AttemptLine> lines) {
    List<Attempt> attempts = new ArrayList<>();
    for (AttemptLine line : lines) {
      attempts.add(
          new Attempt(
              attempts.size() + 1,
              line.begun().toString().replace('T', ' ').replaceFirst("(\\.\\d+)?Z$", " UTC"),
              Shapes.ofWord(Optional.of(line.word())),
              line.whole() ? line.word().ofUnit() : "not whole",
              Numbers.minusSigns(line.reason())));
    }
    return attempts;
  }

  private static List<Row> beside(Adjustment adjustment) {
    return adjustment.measures().stream().map(StationPapers::row).toList();
  }

  private static Row row(Adjustment.Pair<Judgement> pair) {
    Judgement any = pair.any();
    return new Row(
        Figures.name(any.measure()),
        value(pair.asFound()),
        Shapes.ofWord(pair.asFound().flatMap(Judgement::word)),
        value(pair.asLeft()),
        Shapes.ofWord(pair.asLeft().flatMap(Judgement::word)),
        any.limit().map(l -> Numbers.minusSigns(l.text())).orElse(Figures.NONE));
  }

  private static String value(Optional<Judgement> side) {
    return side.map(j -> Numbers.minusSigns(Figures.valueWithUnit(j.measure())))
        .orElse(Figures.NONE);
  }

  private void paper(Visit visit, Optional<Ended> ended) throws Refusal, WrongRequest, IOException {
    Ended end =
        ended
            .filter(e -> e.aids().isPresent())
            .orElseThrow(() -> Refusal.notThere("There is no run here whose paper that could be."));
    TwinAndCauses aids = end.aids().orElseThrow();
    RecordFiles files = end.outcome().orElseThrow().files();
    String kind = visit.path("kind");
    switch (kind) {
      case "page" -> file(visit, files.report(), "text/html; charset=utf-8");
      case "json" -> file(visit, files.json(), "application/json");
      case "record" -> file(visit, files.record(), "application/jsonl");
      default -> {
        PaperSort sort =
            PaperSort.of(kind)
                .orElseThrow(() -> Refusal.notThere("There is no paper of this kind."));
        visit.download(name(files.paper(kind)), PDF, pdf(sort, files, aids));
      }
    }
  }

  private byte[] pdf(PaperSort kind, RecordFiles files, TwinAndCauses aids) throws WrongRequest {
    synchronized (aids) {
      Subject subject = Subject.of(FiledRecords.of(files.record(), aids));
      String tool = aids.run().record().opened().tool();
      Issue issue = Issuing.draft(subject, files.record(), stated, tool);
      return kind.pdf(subject, issue, LabelSize.SMALL);
    }
  }

  private static void file(Visit visit, Path file, String type) throws IOException {
    visit.download(name(file), type, Files.readAllBytes(file));
  }

  private static String name(Path file) {
    return file.getFileName().toString();
  }
}

package org.benchstroke.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.Adjustment;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.HtmlReport;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.papers.Signatory;
import org.benchstroke.papers.UnitsCsv;
import org.benchstroke.papers.sheets.Subject;
import org.benchstroke.record.RecordReader;

/** A unit as found and as left, from its two records, in one report. */
public final class AdjustedReport {
  private final Path found;
  private final Path left;
  private final TwinAndCauses foundAids;
  private final TwinAndCauses leftAids;
  private final Adjustment adjustment;

  /**
   * Reads and judges both.
   *
   * @throws WrongRequest with every reason why they are not two runs of one unit
   */
  public AdjustedReport(Path found, Path left, String done)
      throws RecordReader.NotARecord, FileMistakes, WrongRequest {
    this.found = found;
    this.left = left;
    JudgedRun before = Reports.judge(found);
    JudgedRun after = Reports.judge(left);
    List<String> obstacles = Adjustment.obstacles(before, after);
    if (!obstacles.isEmpty()) {
      throw new WrongRequest(
          "--as-found " + found + " with " + left + ": " + String.join("; ", obstacles));
    }
    this.foundAids = new TwinAndCauses(before);
    this.leftAids = new TwinAndCauses(after);
    this.adjustment = new Adjustment(before, after, done);
  }

  public JudgedRun asLeft() {
    return adjustment.asLeft();
  }

  public String html(Optional<Signatory> authorised) {
    return new HtmlReport()
        .html(adjustment, file(foundAids, found), file(leftAids, left), authorised);
  }

  public String json(Optional<Signatory> authorised) {
    return new JsonReport().json(adjustment, foundAids, leftAids, authorised);
  }

  /** What a paper of both is about. */
  public Subject subject() throws WrongRequest {
    return new Subject(
        FiledRecords.of(left, leftAids),
        Optional.of(FiledRecords.of(found, foundAids)),
        adjustment.done());
  }

  /** Both, for tables. */
  public List<UnitsCsv.Run> rows() {
    return List.of(
        new UnitsCsv.Run("as found", foundAids, found.getFileName().toString()),
        new UnitsCsv.Run("as left", leftAids, left.getFileName().toString()));
  }

  /** What a terminal shows of it. */
  public String summary() {
    return "As found: "
        + adjustment.asFound().verdict().ofUnit()
        + "\nAs left: "
        + adjustment.asLeft().verdict().ofUnit()
        + "\nFirst-pass yield: "
        + adjustment.firstPasses()
        + " of 1";
  }

  private static HtmlReport.RecordFile file(TwinAndCauses aids, Path path) {
    return new HtmlReport.RecordFile(aids, path.getFileName().toString());
  }
}

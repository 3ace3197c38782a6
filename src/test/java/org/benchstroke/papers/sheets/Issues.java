package org.benchstroke.papers.sheets;

import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.FiledRecords;
import org.benchstroke.app.Reports;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.Letterhead;
import org.benchstroke.papers.PaperSize;
import org.benchstroke.papers.Signatory;

/** What papers of tests are made from. All names are invented. */
final class Issues {
  static final Letterhead SHOP =
      new Letterhead(
          "Harbour Lane Actuator Service (invented)",
          List.of("1 Harbour Lane", "00000 Sampleton (invented)"),
          Optional.empty());
  static final Signatory HEAD = new Signatory("A. Sample (invented)", "head of the test shop");

  private Issues() {}

  static Issue issue() {
    return issue(PaperSize.A4, Language.ENGLISH);
  }

  static Issue issue(PaperSize size, Language language) {
    return new Issue(
        Optional.of(SHOP),
        size,
        language,
        Instant.parse("2026-06-03T10:00:00Z"),
        ZoneId.of("Europe/Berlin"),
        Optional.of(HEAD),
        "benchstroke under test",
        new Issue.Said("scratched lid", "none", "Lid replaced."),
        Edition.FIRST);
  }

  static Issue unauthorised() {
    Issue i = issue();
    return new Issue(
        Optional.empty(),
        i.size(),
        i.language(),
        i.issued(),
        i.zone(),
        Optional.empty(),
        i.program(),
        Issue.Said.NOTHING,
        Edition.FIRST);
  }

  static Filed filed(Path record) throws Exception {
    return FiledRecords.of(record, new TwinAndCauses(Reports.judge(record)));
  }

  static Subject subject(Path record) throws Exception {
    return Subject.of(filed(record));
  }

  static Subject subject(Path found, Path left) throws Exception {
    return new Subject(filed(left), Optional.of(filed(found)), "Span turned down by 1.4 %");
  }
}

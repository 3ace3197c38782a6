package org.benchstroke.app;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.Letterhead;
import org.benchstroke.papers.PaperSize;
import org.benchstroke.papers.Signatory;
import org.benchstroke.papers.sheets.Edition;
import org.benchstroke.papers.sheets.Issue;
import org.benchstroke.papers.sheets.Subject;

/** How a paper is issued now, where nobody says otherwise: as is stated for all. Stateless. */
public final class Issuing {
  private Issuing() {}

  /**
   * Of a run.
   *
   * @param by who answers for it, if anyone does
   * @param tool name and version of the program
   * @throws WrongRequest if the shop's logo can't be used, or what is stated can't be
   */
  public static Issue now(JudgedRun run, Defaults stated, Optional<Signatory> by, String tool)
      throws WrongRequest {
    Optional<Letterhead> head = FiledRecords.letterhead(run, stated.shop(), Optional.empty());
    PaperSort.requireLogo(head);
    String paper = said(stated, Setting.PAPER);
    String tongue = said(stated, Setting.LANGUAGE);
    return new Issue(
        head,
        Stream.of(PaperSize.values())
            .filter(size -> size.key().equalsIgnoreCase(paper))
            .findFirst()
            .orElse(PaperSize.A4),
        Stream.of(Language.values())
            .filter(language -> language.key().equals(tongue))
            .findFirst()
            .orElse(Language.ENGLISH),
        SystemClock.realTime().utc(),
        ZoneId.systemDefault(),
        by,
        tool,
        Issue.Said.NOTHING,
        Edition.FIRST);
  }

  /**
   * A draft that nobody answers for; it bears the number that the record has.
   *
   * @throws WrongRequest as above, or if an earlier issue beside the record can't be read
   */
  public static Issue draft(Subject subject, Path record, Defaults stated, String tool)
      throws WrongRequest {
    Issue issue = now(subject.run().aids().run(), stated, Optional.empty(), tool);
    return IssueFiles.of(record).beside(subject, issue);
  }

  private static String said(Defaults stated, Setting setting) throws WrongRequest {
    return stated.text(setting, Optional.empty()).orElse("").toLowerCase(Locale.ROOT);
  }
}

package org.benchstroke.app;

import java.time.ZoneId;
import java.util.Optional;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.Letterhead;
import org.benchstroke.papers.PaperSize;
import org.benchstroke.papers.Signatory;
import org.benchstroke.papers.sheets.Issue;
import org.benchstroke.papers.sheets.Papers;

/** How a paper is issued now, where nobody says otherwise: as the shop states. Stateless. */
public final class Issuing {
  private Issuing() {}

  /**
   * Of a run.
   *
   * @param by who answers for it, if anyone does
   * @param tool name and version of the program
   * @throws WrongRequest if the shop's logo can't be used
   */
  public static Issue now(
      JudgedRun run, Optional<ShopFile> shop, Optional<Signatory> by, String tool)
      throws WrongRequest {
    Optional<Letterhead> head = FiledRecords.letterhead(run, shop, Optional.empty());
    Optional<String> obstacle = head.flatMap(Letterhead::logo).flatMap(Papers::logoObstacle);
    if (obstacle.isPresent()) {
      throw new WrongRequest("the shop's logo: " + obstacle.get());
    }
    return new Issue(
        head,
        shop.map(ShopFile::paper).orElse(PaperSize.A4),
        shop.map(ShopFile::language).orElse(Language.ENGLISH),
        SystemClock.realTime().utc(),
        ZoneId.systemDefault(),
        by,
        tool,
        Issue.Said.NOTHING);
  }
}

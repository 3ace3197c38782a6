package org.benchstroke.papers.sheets;

import java.time.Instant;
import java.time.ZoneId;
import java.util.Optional;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.Letterhead;
import org.benchstroke.papers.PaperSize;
import org.benchstroke.papers.Signatory;

/**
 * Who issues a paper, when, and how it is set. Immutable.
 *
 * @param letterhead the issuing shop, if it is known
 * @param size the sheet
 * @param language of the words
 * @param issued when
 * @param zone whose local time the paper is issued in; that of a test is its record's
 * @param authorised who answers for it, if anyone does
 * @param program name and version of what judged and set it
 * @param said what the shop says beside the figures
 * @param edition which issue it is
 */
public record Issue(
    Optional<Letterhead> letterhead,
    PaperSize size,
    Language language,
    Instant issued,
    ZoneId zone,
    Optional<Signatory> authorised,
    String program,
    Said said,
    Edition edition) {

  /** The same as another issue. */
  public Issue as(Edition other) {
    return new Issue(letterhead, size, language, issued, zone, authorised, program, said, other);
  }

  /** The number that stands on every page of a paper about this. */
  String number(Subject subject) {
    return subject.number() + edition.suffix();
  }

  /**
   * What the shop says beside the figures; each may be empty.
   *
   * @param condition of the unit when it came
   * @param deviations from the methods
   * @param remarks whatever else
   */
  public record Said(String condition, String deviations, String remarks) {
    public static final Said NOTHING = new Said("", "", "");
  }
}

package org.benchstroke.papers.sheets;

import java.util.Locale;
import org.benchstroke.papers.Language;
import org.benchstroke.record.RecordDigest;

/** What the QR code of a paper says, the same in every language. Stateless. */
final class Code {
  private Code() {}

  /**
   * Lines: the number, the verdict, SHA-256 of the record. A simulated unit is called one before
   * its verdict.
   */
  static String of(Subject subject, Issue issue) {
    Terms terms = new Terms(Words.of(Language.ENGLISH));
    String verdict = Headline.of(subject.judged(), terms).word().toLowerCase(Locale.ROOT);
    String simulated = subject.simulated() ? "simulated: " : "";
    String digest =
        subject.judged().record().digest().map(RecordDigest::sha256).orElse("no record");
    return issue.number(subject) + "\n" + simulated + verdict + "\n" + digest;
  }
}

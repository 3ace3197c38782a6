package org.benchstroke.papers.sheets;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.benchstroke.papers.JsonReport;
import org.benchstroke.papers.MeasuresCsv;
import org.benchstroke.papers.pdf.Attachment;
import org.benchstroke.papers.pdf.Attachment.Relation;

/** The figures of a paper for other programs, as files in it. Stateless. */
final class Data {
  private Data() {}

  static List<Attachment> of(Subject subject, Issue issue) {
    Words words = Words.of(issue.language());
    List<Attachment> files = new ArrayList<>();
    String json =
        subject
            .adjustment()
            .map(both -> new JsonReport().json(both, issue.authorised()))
            .orElseGet(() -> new JsonReport().json(subject.judged(), issue.authorised()));
    files.add(
        new Attachment(
            "judgement.json",
            "application/json",
            Relation.DATA,
            words.of("attached.judgement"),
            json.getBytes(StandardCharsets.UTF_8)));
    files.add(
        new Attachment(
            "measures.csv",
            "text/csv",
            Relation.DATA,
            words.of("attached.measures"),
            csv(subject).getBytes(StandardCharsets.UTF_8)));
    return files;
  }

  private static String csv(Subject subject) {
    return subject.found().isEmpty()
        ? MeasuresCsv.text(List.of(new MeasuresCsv.Run("", subject.judged())))
        : MeasuresCsv.text(
            List.of(
                new MeasuresCsv.Run("as found", subject.found().get().run()),
                new MeasuresCsv.Run("as left", subject.judged())));
  }
}

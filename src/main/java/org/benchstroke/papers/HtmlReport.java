package org.benchstroke.papers;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.TemplateOutput;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.core.quantity.Visible;
import org.benchstroke.judge.Adjustment;

/**
 * A judged run as one HTML page that needs nothing beside itself: no script, no network, pictures
 * and style inside. It prints on A4 and Letter. The same run gives the same bytes on any machine.
 * Safe for any thread.
 */
public final class HtmlReport {
  private final TemplateEngine engine = TemplateEngine.createPrecompiled(ContentType.Html);

  /**
   * Writes the page.
   *
   * @param aids what is reported, with its aids
   * @param recordFile the name of the record's file, if it is known
   * @return the page; to be stored as UTF-8
   */
  public String html(TwinAndCauses aids, Optional<String> recordFile) {
    return html(aids, recordFile, Optional.empty());
  }

  /**
   * Writes the page of a report that someone answers for.
   *
   * @param authorised who, if it is known
   */
  public String html(
      TwinAndCauses aids, Optional<String> recordFile, Optional<Signatory> authorised) {
    TemplateOutput output = new StringOutput();
    engine.render("papers/page.jte", ReportPages.of(aids, recordFile, authorised, style()), output);
    return Visible.of(output.toString());
  }

  /**
   * A run and its record's file.
   *
   * @param aids the aids to the run
   * @param name the file's name, without folders
   */
  public record RecordFile(TwinAndCauses aids, String name) {}

  /**
   * Writes one page of a unit as found and as left.
   *
   * @param authorised who answers for it, if it is known
   * @return the page; to be stored as UTF-8
   */
  public String html(
      Adjustment adjustment,
      RecordFile asFound,
      RecordFile asLeft,
      Optional<Signatory> authorised) {
    TemplateOutput output = new StringOutput();
    ReportPage page = AdjustmentPage.of(adjustment, asFound, asLeft, authorised, style());
    engine.render("papers/page.jte", page, output);
    return Visible.of(output.toString());
  }

  private static String style() {
    try (InputStream in = HtmlReport.class.getResourceAsStream("report.css")) {
      if (in == null) {
        throw new IllegalStateException("the program file is damaged: report.css is missing");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("the program file is damaged: report.css can't be read", e);
    }
  }
}

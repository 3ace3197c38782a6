package org.benchstroke.papers.sheets;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.TemplateOutput;
import gg.jte.output.StringOutput;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.quantity.Visible;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.papers.Section;
import org.benchstroke.papers.pdf.Attachment;
import org.benchstroke.papers.pdf.PdfPaper;
import org.benchstroke.papers.pdf.PdfWriter;
import org.benchstroke.papers.pdf.Picture;
import org.benchstroke.papers.pdf.QrPicture;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;

/**
 * The papers of a judged run as PDF files. The same run and the same issue give the same bytes on
 * any machine. Safe for any thread, as long as nobody else uses the aids of the run.
 */
public final class Papers {
  /** Before the names of files of a run as found, where those as left have the same names. */
  public static final String AS_FOUND = "as-found-";

  private final TemplateEngine engine = TemplateEngine.createPrecompiled(ContentType.Html);
  private final PdfWriter writer = new PdfWriter();

  /** Why a file can't be a letterhead's logo, to be put behind its name; empty if it can. */
  public static Optional<String> logoObstacle(Path file) {
    return Logo.obstacle(file);
  }

  /** Why a certificate of this would be a test report, a sentence each; empty if it would not. */
  public static List<String> obstacles(Subject subject, Issue issue) {
    Words words = Words.of(Language.ENGLISH);
    return Standing.of(subject, issue).obstacles().stream()
        .map(obstacle -> words.of("obstacle." + obstacle.name()))
        .toList();
  }

  /** A certificate with the record in it; a test report if it can't be one. */
  public byte[] certificate(Subject subject, Issue issue) {
    Certificate certificate = new Certificate(subject, issue);
    CertificatePage page = certificate.page();
    List<Attachment> files = new ArrayList<>();
    subject.found().ifPresent(found -> files.addAll(apart(found, subject.run())));
    files.addAll(subject.run().files());
    files.addAll(Data.of(subject, issue));
    return set(
        subject, issue, page.frame(), html("certificate", page), certificate.pictures(), files);
  }

  /** All measures, plots, budgets, methods, preflight and cautions. */
  public byte[] annex(Subject subject, Issue issue) {
    Words words = Words.of(issue.language());
    Frame frame = Frames.of(subject, issue, words, words.of("title.annex"));
    List<Section> sections = new ArrayList<>();
    for (Filed filed : subject.all()) {
      for (Section each : ReportPages.sections(filed.aids(), Optional.of(filed.name()))) {
        sections.add(
            subject.found().isEmpty()
                ? each
                : new Section(which(subject, filed, each), each.blocks()));
      }
    }
    sections.add(ReportPages.basis(subject.judged()));
    AnnexPage page = new AnnexPage(frame, sections);
    return set(subject, issue, frame, html("annex", page), page.pictures(), List.of());
  }

  /** In English, as the titles are. */
  private static String which(Subject subject, Filed filed, Section section) {
    return Words.of(Language.ENGLISH)
        .of(filed.equals(subject.run()) ? "which.left" : "which.found", section.title());
  }

  /** The same in words, for whatever shows them otherwise than on paper. */
  public static SheetPage sheetInWords(Subject subject, Issue issue) {
    return new WorkshopSheet(subject, issue).page();
  }

  /** For whoever adjusts the unit: what fails, why most likely, what to turn. */
  public byte[] sheet(Subject subject, Issue issue) {
    SheetPage page = new WorkshopSheet(subject, issue).page();
    Map<String, Picture> mark = Map.of("mark", new MarkPicture(page.headline().mark()));
    return set(subject, issue, page.frame(), html("sheet", page), mark, List.of());
  }

  /** For the unit. */
  public byte[] label(Subject subject, Issue issue, LabelSize size) {
    LabelPage page = label(subject, issue, Words.of(issue.language()), size);
    return set(
        subject,
        issue,
        page.frame(),
        html("label", page),
        Map.of("code", new QrPicture(Code.of(subject, issue))),
        List.of());
  }

  private static LabelPage label(Subject subject, Issue issue, Words words, LabelSize size) {
    JudgedRun run = subject.judged();
    Headline headline = Headline.of(run, new Terms(words));
    Optional<String> warning =
        subject.simulated()
            ? Optional.of(words.of("status.simulated"))
            : run.imported().map(i -> words.of("status.elsewhere"));
    boolean dated = run.imported().map(Event.Imported::dated).orElse(true);
    return new LabelPage(
        Frames.of(subject, issue, words, words.of("title.label")),
        size,
        JobRows.stated(run.record().label(Label.SERIAL), words),
        Terms.shape(headline.mark()) + "\u00a0" + headline.word(),
        dated
            ? ReportPages.began(run).atOffset(run.record().offset()).toLocalDate().toString()
            : words.of("test.undated"),
        words.of(Standing.of(subject, issue).certifies() ? "title.certificate" : "title.report"),
        warning);
  }

  /** The files of one run, under other names where those of the other run have the same. */
  private static List<Attachment> apart(Filed found, Filed left) {
    return found.name().equals(left.name())
        ? found.files().stream().map(file -> file.named(AS_FOUND + file.name())).toList()
        : found.files();
  }

  private String html(String template, Object page) {
    TemplateOutput output = new StringOutput();
    engine.render("papers/sheets/" + template + ".jte", page, output);
    return Visible.of(output.toString());
  }

  private byte[] set(
      Subject subject,
      Issue issue,
      Frame frame,
      String html,
      Map<String, Picture> pictures,
      List<Attachment> files) {
    Optional<String> watermark =
        subject.simulated() ? Optional.of(frame.words().of("watermark")) : Optional.empty();
    return writer.write(
        new PdfPaper(
            frame.title() + " " + frame.number(),
            frame.title() + frame.number(),
            issue.language().locale(),
            issue.issued(),
            html,
            pictures,
            files,
            watermark));
  }
}

package org.benchstroke.papers.pdf;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder.PdfAConformance;
import com.openhtmltopdf.util.XRLog;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.logging.Level;
import org.apache.pdfbox.pdmodel.PDDocument;

/**
 * Sets papers as PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1). The same paper gives the same
 * bytes on any machine. Any thread.
 */
public final class PdfWriter {
  static {
    NoOtherFonts.set();
    XRLog.listRegisteredLoggers().forEach(logger -> XRLog.setLevel(logger, Level.OFF));
  }

  /**
   * The whole file.
   *
   * @throws IllegalArgumentException if its page is not well-formed
   */
  public byte[] write(PdfPaper paper) {
    try (PDDocument document = new PDDocument()) {
      set(paper, document);
      PdfFinish.of(paper, document);
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      document.save(out);
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException("a paper can't be set: " + e.getMessage(), e);
    }
  }

  private static void set(PdfPaper paper, PDDocument document) throws IOException {
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.usePDDocument(document);
    builder.usePdfAConformance(PdfAConformance.PDFA_3_A);
    builder.usePdfUaAccessibility(true);
    builder.useColorProfile(ICC_Profile.getInstance(ColorSpace.CS_sRGB).getData());
    builder.withProducer("benchstroke");
    builder.useUnicodeLineBreaker(new SpaceBreaks());
    builder.useSVGDrawer(new PagePictures(paper.pictures()));
    // nothing is fetched: what a page shows is in it
    builder.useUriResolver((base, uri) -> uri.startsWith("data:") ? uri : null);
    for (Fonts font : Fonts.values()) {
      builder.useFont(font::open, Fonts.FAMILY, font.weight(), FontStyle.NORMAL, true);
    }
    builder.withHtmlContent(paper.xhtml(), null);
    try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
      renderer.layout();
      renderer.createPDFWithoutClosing();
    }
  }
}

package org.benchstroke.papers.pdf;

import java.awt.geom.AffineTransform;
import java.awt.geom.PathIterator;
import java.awt.geom.Rectangle2D;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.Calendar;
import java.util.GregorianCalendar;
import java.util.Locale;
import java.util.Map;
import java.util.TimeZone;
import java.util.TreeMap;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSString;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentCatalog;
import org.apache.pdfbox.pdmodel.PDDocumentNameDictionary;
import org.apache.pdfbox.pdmodel.PDEmbeddedFilesNameTreeNode;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDMetadata;
import org.apache.pdfbox.pdmodel.common.filespecification.PDComplexFileSpecification;
import org.apache.pdfbox.pdmodel.common.filespecification.PDEmbeddedFile;

/** What a set document lacks: its files, fixed dates and identifiers, the watermark. Stateless. */
final class PdfFinish {
  private static final String XMP_DATES = "(?<=<xmp:(?:Create|Modify|Metadata)Date>)[^<]*";
  private static final float PALE = 0.93f;

  private PdfFinish() {}

  static void of(PdfPaper paper, PDDocument document) throws IOException {
    if (paper.watermark().isPresent()) {
      for (PDPage page : document.getPages()) {
        watermark(document, page, paper.watermark().get());
      }
    }
    attach(paper, document);
    dates(paper, document);
    identify(paper, document);
  }

  /** Below the text: it is drawn before it, and is no part of what is read aloud. */
  private static void watermark(PDDocument document, PDPage page, String words) throws IOException {
    Letters letters = new Letters();
    Rectangle2D box = letters.bounds(words, 100.0, true);
    double width = page.getMediaBox().getWidth();
    double height = page.getMediaBox().getHeight();
    double diagonal = Math.hypot(width, height);
    double em = 100.0 * 0.66 * diagonal / box.getWidth();
    AffineTransform place = AffineTransform.getTranslateInstance(width / 2, height / 2);
    place.rotate(Math.atan2(height, width));
    place.scale(em / 100.0, -em / 100.0);
    place.translate(-box.getCenterX(), -box.getCenterY());
    try (PDPageContentStream content =
        new PDPageContentStream(
            document, page, PDPageContentStream.AppendMode.PREPEND, true, true)) {
      content.beginMarkedContent(COSName.ARTIFACT);
      content.setNonStrokingColor(PALE, PALE, PALE);
      path(content, letters.outline(words, 100.0, true).getPathIterator(place));
      content.fill();
      content.endMarkedContent();
    }
  }

  private static void path(PDPageContentStream content, PathIterator path) throws IOException {
    float[] c = new float[6];
    float x = 0;
    float y = 0;
    for (; !path.isDone(); path.next()) {
      switch (path.currentSegment(c)) {
        case PathIterator.SEG_MOVETO -> content.moveTo(c[0], c[1]);
        case PathIterator.SEG_LINETO -> content.lineTo(c[0], c[1]);
        case PathIterator.SEG_QUADTO ->
            // the same curve as a cubic one
            content.curveTo(
                x + 2 * (c[0] - x) / 3,
                y + 2 * (c[1] - y) / 3,
                c[2] + 2 * (c[0] - c[2]) / 3,
                c[3] + 2 * (c[1] - c[3]) / 3,
                c[2],
                c[3]);
        case PathIterator.SEG_CUBICTO -> content.curveTo(c[0], c[1], c[2], c[3], c[4], c[5]);
        default -> content.closePath();
      }
      boolean curve = path.currentSegment(c) == PathIterator.SEG_QUADTO;
      x = curve ? c[2] : c[0];
      y = curve ? c[3] : c[1];
    }
  }

  private static void attach(PdfPaper paper, PDDocument document) throws IOException {
    if (paper.attachments().isEmpty()) {
      return;
    }
    Map<String, PDComplexFileSpecification> names = new TreeMap<>();
    COSArray associated = new COSArray();
    for (Attachment attachment : paper.attachments()) {
      PDComplexFileSpecification file = file(paper, document, attachment);
      names.put(attachment.name(), file);
      associated.add(file.getCOSObject());
    }
    PDEmbeddedFilesNameTreeNode files = new PDEmbeddedFilesNameTreeNode();
    files.setNames(names);
    PDDocumentCatalog catalogue = document.getDocumentCatalog();
    PDDocumentNameDictionary tree = new PDDocumentNameDictionary(catalogue);
    tree.setEmbeddedFiles(files);
    catalogue.setNames(tree);
    catalogue.getCOSObject().setItem(COSName.getPDFName("AF"), associated);
  }

  private static PDComplexFileSpecification file(
      PdfPaper paper, PDDocument document, Attachment attachment) throws IOException {
    PDEmbeddedFile embedded =
        new PDEmbeddedFile(
            document, new ByteArrayInputStream(attachment.bytes()), COSName.FLATE_DECODE);
    embedded.setSubtype(attachment.mime());
    embedded.setSize(attachment.bytes().length);
    embedded.setCreationDate(calendar(paper));
    embedded.setModDate(calendar(paper));
    PDComplexFileSpecification file = new PDComplexFileSpecification();
    file.setFile(attachment.name());
    file.setFileUnicode(attachment.name());
    file.setFileDescription(attachment.words());
    file.setEmbeddedFile(embedded);
    file.setEmbeddedFileUnicode(embedded);
    COSDictionary dictionary = file.getCOSObject();
    dictionary.setName("AFRelationship", attachment.relation().key());
    return file;
  }

  private static void dates(PdfPaper paper, PDDocument document) throws IOException {
    document.getDocumentInformation().setCreationDate(calendar(paper));
    document.getDocumentInformation().setModificationDate(calendar(paper));
    PDMetadata metadata = document.getDocumentCatalog().getMetadata();
    String at =
        DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
            paper.issued().truncatedTo(ChronoUnit.SECONDS).atOffset(ZoneOffset.UTC));
    String xmp = new String(metadata.toByteArray(), StandardCharsets.UTF_8);
    metadata.importXMPMetadata(xmp.replaceAll(XMP_DATES, at).getBytes(StandardCharsets.UTF_8));
  }

  private static Calendar calendar(PdfPaper paper) {
    Calendar calendar = new GregorianCalendar(TimeZone.getTimeZone("UTC"), Locale.ROOT);
    calendar.setTimeInMillis(paper.issued().truncatedTo(ChronoUnit.SECONDS).toEpochMilli());
    return calendar;
  }

  /** The identifiers of a file follow from what it is about, not from the time of day. */
  private static void identify(PdfPaper paper, PDDocument document) {
    try {
      MessageDigest sha256 = MessageDigest.getInstance("SHA-256");
      sha256.update(paper.id().getBytes(StandardCharsets.UTF_8));
      byte[] id = Arrays.copyOf(sha256.digest(paper.xhtml().getBytes(StandardCharsets.UTF_8)), 16);
      COSArray both = new COSArray();
      both.add(new COSString(id));
      both.add(new COSString(id));
      document.getDocument().setDocumentID(both);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}

package org.benchstroke.papers.pdf;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.NotFoundException;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.verapdf.core.VeraPDFException;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;

/**
 * A PDF file, read by others: its text and pictures by PDFBox, its conformity by veraPDF 1.28 (the
 * reference of the PDF Association), its QR code by zxing's reader.
 */
public final class Pdf {
  static {
    VeraGreenfieldFoundryProvider.initialise();
  }

  private final byte[] bytes;

  public Pdf(byte[] bytes) {
    this.bytes = bytes;
  }

  public byte[] bytes() {
    return bytes;
  }

  public int pages() {
    try (PDDocument document = Loader.loadPDF(bytes)) {
      return document.getNumberOfPages();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** All text, with one space between words and no-break spaces as spaces. */
  public String text() {
    return text(1, Integer.MAX_VALUE);
  }

  /** Of one page, from 1. */
  public String text(int page) {
    return text(page, page);
  }

  private String text(int from, int to) {
    try (PDDocument document = Loader.loadPDF(bytes)) {
      PDFTextStripper stripper = new PDFTextStripper();
      stripper.setSortByPosition(true);
      stripper.setStartPage(from);
      stripper.setEndPage(to);
      return stripper.getText(document).replace('\u00a0', ' ').replaceAll("\\s+", " ");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public BufferedImage picture(int page, float dpi) {
    try (PDDocument document = Loader.loadPDF(bytes)) {
      return new PDFRenderer(document).renderImageWithDPI(page - 1, dpi, ImageType.RGB);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What the QR code of a page says. */
  public String code(int page) {
    BufferedImage image = picture(page, 300);
    int width = image.getWidth();
    int height = image.getHeight();
    int[] pixels = image.getRGB(0, 0, width, height, null, 0, width);
    BinaryBitmap bits =
        new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(width, height, pixels)));
    try {
      return new QRCodeReader()
          .decode(bits, Map.of(DecodeHintType.TRY_HARDER, Boolean.TRUE))
          .getText();
    } catch (NotFoundException e) {
      throw new AssertionError("there is no QR code", e);
    } catch (ReaderException e) {
      throw new AssertionError("the QR code can't be read", e);
    }
  }

  /** Holds it against PDF/A-3a and PDF/UA-1. */
  public Pdf isValid() {
    for (PDFAFlavour flavour : new PDFAFlavour[] {PDFAFlavour.PDFA_3_A, PDFAFlavour.PDFUA_1}) {
      try (PDFAParser parser =
          Foundries.defaultInstance().createParser(new ByteArrayInputStream(bytes), flavour)) {
        var result = Foundries.defaultInstance().createValidator(flavour, false).validate(parser);
        assertThat(result.getTestAssertions().stream().map(Pdf::told))
            .as(flavour.getId())
            .isEmpty();
        assertThat(result.isCompliant()).as(flavour.getId()).isTrue();
      } catch (VeraPDFException | IOException e) {
        throw new AssertionError(e);
      }
    }
    return this;
  }

  private static String told(TestAssertion broken) {
    return broken.getRuleId().getClause()
        + " "
        + broken.getMessage()
        + " at "
        + broken.getLocation().getContext();
  }
}

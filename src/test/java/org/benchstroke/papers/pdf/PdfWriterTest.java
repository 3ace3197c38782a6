package org.benchstroke.papers.pdf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.apache.pdfbox.pdmodel.font.FontMappers;
import org.benchstroke.papers.pdf.Attachment.Relation;
import org.benchstroke.papers.plot.Caption;
import org.benchstroke.papers.plot.Drawing;
import org.benchstroke.papers.plot.Ink;
import org.benchstroke.papers.plot.Marker;
import org.benchstroke.papers.plot.Shape;
import org.benchstroke.papers.plot.Stroke;
import org.junit.jupiter.api.Test;

class PdfWriterTest {
  private static final Instant ISSUED = Instant.parse("2026-03-04T09:12:30Z");
  private static final String CODE = "BS-QT-104-0231\npassed\n0123456789abcdef";

  private static final Drawing PLOT =
      new Drawing(
          new Caption("p", "A plot", "It shows all shapes."),
          200,
          100,
          List.of(
              new Shape.Area(new Shape.Box(0, 0, 100, 50), Shape.Fill.HATCHED),
              new Shape.Area(new Shape.Box(100, 0, 50, 50), Shape.Fill.GREY),
              new Shape.Area(new Shape.Box(150, 0, 49, 50), Shape.Fill.NONE),
              new Shape.Clipped(
                  new Shape.Box(0, 0, 100, 50),
                  List.of(new Shape.Line(0, 0, 200, 100, Stroke.LIMIT))),
              new Shape.Curve(
                  List.of(new Shape.Point(0, 90), new Shape.Point(200, 60)), Stroke.DOWN),
              new Shape.Mark(50, 80, Marker.RING, Ink.BLUE),
              new Shape.Mark(80, 80, Marker.TRIANGLE_UP, Ink.RUST),
              new Shape.Text("-0.5", 100, 95, Shape.Anchor.MIDDLE, Shape.Face.PLAIN),
              new Shape.Text("up", 190, 95, Shape.Anchor.END, Shape.Face.UPWARD)));

  private static PdfPaper paper(String body) {
    String page =
        "<html lang=\"en\"><head><title>A paper</title><style>@page { size: A4 } body {"
            + " font-family: 'DejaVu Sans' }</style></head><body>"
            + body
            + "</body></html>";
    return new PdfPaper(
        "A paper",
        "BS-1",
        Locale.ENGLISH,
        ISSUED,
        page,
        Map.of("code", new QrPicture(CODE), "plot", new PlotPicture(PLOT)),
        List.of(
            new Attachment("r.jsonl", "application/jsonl", Relation.SOURCE, "record", utf8("{}\n")),
            new Attachment("m.csv", "text/csv", Relation.DATA, "measures", utf8("a,b\r\n"))),
        Optional.of("SIMULATED"));
  }

  private static PdfPaper whole() {
    return paper(
        "<h1>Error −0.05 % ≤ 1 %, √ν ✓</h1><p>Text</p><svg id=\"code\" alt=\"a code\""
            + " style=\"width: 30mm\"></svg><svg id=\"plot\" alt=\"a plot\" style=\"width: 90mm\">"
            + "</svg><table><thead><tr><th>A</th></tr></thead><tbody><tr><td>1</td></tr></tbody>"
            + "</table>");
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void aPaperIsValidAndItsTextCanBeRead() {
    Pdf pdf = new Pdf(new PdfWriter().write(whole()));
    assertThat(pdf.isValid().text()).contains("Error −0.05 % ≤ 1 %, √ν ✓ Text").contains("A 1");
    assertThat(pdf.pages()).isEqualTo(1);
  }

  @Test
  void theSamePaperIsTheSameBytes() {
    byte[] once = new PdfWriter().write(whole());
    assertThat(new PdfWriter().write(whole())).isEqualTo(once);
    assertThat(new PdfWriter().write(paper("<p>other</p>"))).isNotEqualTo(once);
  }

  @Test
  void itsFilesComeOutAsTheyWentIn() throws IOException {
    Map<String, byte[]> files = PdfFiles.of(new PdfWriter().write(whole()));
    assertThat(files.keySet()).containsExactly("m.csv", "r.jsonl");
    assertThat(files.get("r.jsonl")).isEqualTo(utf8("{}\n"));
    assertThat(PdfFiles.of(new PdfWriter().write(bare()))).isEmpty();
  }

  private static PdfPaper bare() {
    PdfPaper p = paper("<p>bare</p>");
    return new PdfPaper(
        p.title(),
        p.id(),
        p.locale(),
        p.issued(),
        p.xhtml(),
        Map.of(),
        List.of(),
        Optional.empty());
  }

  @Test
  void whatIsNoPdfIsToldAsSuch() {
    assertThat(PdfFiles.isPdf(utf8("%PDF-1.7"))).isTrue();
    assertThat(PdfFiles.isPdf(utf8("{\"n\":1}"))).isFalse();
    assertThat(PdfFiles.isPdf(new byte[0])).isFalse();
    assertThatThrownBy(() -> PdfFiles.of(utf8("%PDF-1.7\nnothing behind it")))
        .isInstanceOf(IOException.class);
  }

  @Test
  void theCodeIsReadBackFromThePage() {
    assertThat(new Pdf(new PdfWriter().write(whole())).code(1)).isEqualTo(CODE);
  }

  /** Validity proves no picture: the ink of the plot is looked for on the page. */
  @Test
  void thePlotIsSeen() {
    BufferedImage image = new Pdf(new PdfWriter().write(whole())).picture(1, 100);
    assertThat(pixels(image, Ink.BLUE.rgb())).isPositive();
    assertThat(pixels(image, Ink.RUST.rgb())).isPositive();
    BufferedImage without = new Pdf(new PdfWriter().write(bare())).picture(1, 100);
    assertThat(pixels(without, Ink.RUST.rgb())).isZero();
  }

  private static long pixels(BufferedImage image, int rgb) {
    long found = 0;
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        found += (image.getRGB(x, y) & 0xffffff) == rgb ? 1 : 0;
      }
    }
    return found;
  }

  /** Lines end at spaces only: a number stays whole, however narrow its column. */
  @Test
  void noNumberAndNoWordIsBroken() {
    String narrow = "<div style=\"width: 14mm\">error −0.11 on 2026-03-04 of step-response/3</div>";
    assertThat(new Pdf(new PdfWriter().write(paper(narrow))).text())
        .contains("−0.11")
        .contains("2026-03-04")
        .contains("step-response/3");
  }

  /** The library would keep a list of the machine's fonts in the home folder. */
  @Test
  void noFontOfTheMachineIsLookedFor() {
    new PdfWriter().write(whole());
    assertThat(FontMappers.instance()).isInstanceOf(NoOtherFonts.class);
    assertThat(Files.exists(Path.of(System.getProperty("user.home"), ".pdfbox.cache"))).isFalse();
  }
}

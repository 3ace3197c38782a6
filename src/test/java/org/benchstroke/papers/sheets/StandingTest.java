package org.benchstroke.papers.sheets;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import org.benchstroke.acceptance.VirtualBench;
import org.benchstroke.papers.pdf.Pdf;
import org.benchstroke.papers.sheets.Standing.Obstacle;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What can't be a certificate. */
class StandingTest {
  @TempDir static Path records;
  private static Path real;

  @TempDir Path folder;

  @BeforeAll
  static void run() {
    real = RealRecord.of(VirtualBench.with("healthy-b"), records.resolve("real.jsonl"));
  }

  private static List<Obstacle> obstacles(Path record, Issue issue) throws Exception {
    return Standing.of(Issues.subject(record), issue).obstacles();
  }

  private static Pdf paper(Path record, Issue issue) throws Exception {
    return new Pdf(new Papers().certificate(Issues.subject(record), issue));
  }

  @Test
  void aWholeSealedAuthorisedRunIsACertificate() throws Exception {
    assertThat(obstacles(real, Issues.issue())).isEmpty();
    assertThat(paper(real, Issues.issue()).text()).contains("Test certificate");
  }

  @Test
  void aSimulatedRunIsATestReportWithAWatermarkOnEveryPage() throws Exception {
    Path simulated = VirtualBench.with("healthy-b").runInto(folder.resolve("s.jsonl"));
    assertThat(obstacles(simulated, Issues.issue()))
        .containsExactly(Obstacle.SIMULATED, Obstacle.NOT_SEALED);
    Pdf pdf = paper(simulated, Issues.issue()).isValid();
    for (int page = 1; page <= pdf.pages(); page++) {
      assertThat(pdf.text(page)).contains("SIMULATED – not a real unit");
      assertThat(grey(pdf, page)).as("page " + page).isGreaterThan(2000);
    }
    assertThat(grey(paper(real, Issues.issue()), 1)).isLessThan(100);
    assertThat(pdf.text(1))
        .contains("Test report")
        .contains("This is a test report and no certificate:")
        .contains("The unit was simulated. No real unit was tested.")
        .contains("The record is not sealed.");
    assertThat(pdf.text()).doesNotContain("Test certificate");
    assertThat(pdf.code(pdf.pages())).contains("\nsimulated: passed\n");
  }

  /** Pixels of the watermark's grey. */
  private static long grey(Pdf pdf, int page) {
    var image = pdf.picture(page, 50);
    long found = 0;
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        found += (image.getRGB(x, y) & 0xffffff) == 0xededed ? 1 : 0;
      }
    }
    return found;
  }

  @Test
  void withoutAShopOrWhoAuthorisesItItIsATestReport() throws Exception {
    assertThat(obstacles(real, Issues.unauthorised()))
        .containsExactly(Obstacle.NO_SHOP, Obstacle.NOT_AUTHORISED);
    assertThat(paper(real, Issues.unauthorised()).text(1))
        .contains("Test report")
        .contains("Issuing shop not stated")
        .contains("Nobody has authorised it.");
  }

  @Test
  void withoutItsSealOrChangedItIsATestReport() throws Exception {
    Path copy = Files.copy(real, folder.resolve("copy.jsonl"));
    assertThat(obstacles(copy, Issues.issue())).containsExactly(Obstacle.NOT_SEALED);
    Path seal = folder.resolve("copy.jsonl.seal");
    Files.copy(records.resolve("real.jsonl.seal"), seal, StandardCopyOption.REPLACE_EXISTING);
    assertThat(obstacles(copy, Issues.issue())).isEmpty();
    Path other = folder.resolve("other.jsonl");
    Files.writeString(
        other,
        Files.readString(real).replaceFirst("\"temperature_c\":22.5", "\"temperature_c\":2"));
    Files.copy(records.resolve("real.jsonl.seal"), folder.resolve("other.jsonl.seal"));
    assertThat(obstacles(other, Issues.issue()))
        .contains(Obstacle.CHANGED, Obstacle.DAMAGED, Obstacle.NOT_WHOLE);
    assertThat(paper(other, Issues.issue()).text(1))
        .contains("No result")
        .contains("Not judged: the record's seal is broken");
  }

  @Test
  void anInterruptedRunIsATestReport() throws Exception {
    List<String> lines = Files.readAllLines(real);
    Path cut = folder.resolve("cut.jsonl");
    Files.write(cut, lines.subList(0, lines.size() / 2));
    assertThat(obstacles(cut, Issues.issue()))
        .containsExactly(Obstacle.INTERRUPTED, Obstacle.NOT_WHOLE, Obstacle.NOT_SEALED);
    assertThat(paper(cut, Issues.issue()).isValid().text(1))
        .contains("Test report")
        .contains("No result")
        .contains("The run was interrupted");
  }

  @Test
  void anInstrumentPastItsDueDateKeepsItFromBeingACertificate() throws Exception {
    Path earlier =
        RealRecord.of(
            VirtualBench.with("healthy-b")
                .benchText(t -> t.replaceFirst("due = 2099-12-31", "due = 2026-05-31")),
            folder.resolve("past.jsonl"));
    assertThat(obstacles(earlier, Issues.issue())).contains(Obstacle.OVERDUE);
    assertThat(paper(earlier, Issues.issue()).text()).contains("2026-05-31").contains("overdue");
  }
}

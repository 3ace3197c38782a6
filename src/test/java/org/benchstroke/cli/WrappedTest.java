package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class WrappedTest {
  private static final String LINE =
      "  ok       noise at rest  standard deviation 0.0057 %, allowed is 0.13 %";

  @Test
  void aLineThatFitsStays() {
    assertThat(Wrapped.text(LINE, LINE.length(), 4)).isEqualTo(LINE);
  }

  @Test
  void everyPartFitsAndNoWordIsLost() {
    for (int columns = 26; columns < LINE.length(); columns++) {
      int width = columns;
      String broken = Wrapped.text(LINE, width, 6);
      assertThat(broken.lines().skip(1)).isNotEmpty().allMatch(line -> line.startsWith("      "));
      assertThat(broken.lines()).allMatch(line -> line.length() <= width);
      assertThat(broken.strip().split("\\s+")).isEqualTo(LINE.strip().split("\\s+"));
    }
  }

  @Test
  void aWordThatIsTooLongStaysWhole() {
    String path = "x".repeat(60);
    assertThat(Wrapped.text("Report:  " + path + " here", 40, 2))
        .isEqualTo("Report:\n  " + path + "\n  here");
  }
}

package org.benchstroke.papers;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalDouble;
import org.benchstroke.judge.JointRisk;
import org.junit.jupiter.api.Test;

/** What many limits risk together, in sentences that can be read aloud. */
class RiskWordsTest {
  private static JointRisk risk(double atLeast, double atMost, double product, int passes) {
    return new JointRisk(
        12, 4, atLeast, atMost, product, passes, 0.0004, 0.0004, OptionalDouble.of(0.3));
  }

  @Test
  void ofASureRun() {
    assertThat(RiskSection.together(risk(0.9996, 0.99999, 0.9996, 12)))
        .isEqualTo(
            "All limits together: 12 values were compared with 4 limits. The probability that all"
                + " of them truly conform is more than 99.9 %, whatever their errors have in"
                + " common (Bonferroni); with independent errors it is more than"
                + " 99.9 %. The risk that at least one of the 12 passes is wrong is less than 0.1"
                + " %. Had each only just passed, it could be up to 30.0 %.");
  }

  @Test
  void ofADoubtfulAndOfAFailedOne() {
    assertThat(RiskSection.together(risk(0.9, 0.95, 0.91, 12)))
        .contains("is at least 90.0 %, whatever")
        .contains("it is 91.0 %");
    assertThat(RiskSection.together(risk(0.0, 0.0, 0.0, 0)))
        .contains("is less than 0.1 %, that of the least likely one")
        .doesNotContain("passes");
    assertThat(RiskSection.together(risk(0.0, 0.04, 0.03, 1)))
        .contains("is at most 4.0 %, that of the least likely one")
        .contains("The risk that the one pass is wrong");
  }
}

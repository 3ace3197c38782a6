package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Against the formatter of the Java library, which rounds half up, too. */
class ScpiNumberTest {
  private static void assertSame(double value) {
    assertThat(ScpiNumber.text(value)).isEqualTo(String.format(Locale.ROOT, "%.7E", value));
  }

  @Test
  void ends() {
    for (double value :
        new double[] {
          0.0,
          -0.0,
          1.0,
          -1.0,
          0.1,
          10.0,
          0.012,
          12.345678,
          9.99999995,
          9.99999994,
          99999999.5,
          1e-300,
          -1e300,
          0.00399995,
          123456785.0,
          Double.MIN_VALUE
        }) {
      assertSame(value);
    }
  }

  @Test
  void manyOfAllSizes() {
    SplittableRandom random = new SplittableRandom(5);
    for (int i = 0; i < 20_000; i++) {
      double value = (random.nextDouble() - 0.5) * Math.pow(10.0, random.nextInt(-12, 12));
      assertSame(value);
      assertSame(Math.rint(value * 1e6) / 1e6);
    }
  }
}

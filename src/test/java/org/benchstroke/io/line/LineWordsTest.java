package org.benchstroke.io.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LineWordsTest {
  // The usual check text of CRC catalogues; CRC-16 values from memory, the rest by hand: the
  // exclusive-or of '1' to '9' is 0x31, their sum 477 = 0x1DD, its complement 0x23.
  @ParameterizedTest
  @CsvSource({
    "NONE,''",
    "XOR8,31",
    "SUM8,DD",
    "LRC8,23",
    "CRC16_MODBUS,4B37",
    "CRC16_CCITT,29B1",
    "CRC16_XMODEM,31C3"
  })
  void checksums(Checksum checksum, String digits) {
    assertThat(checksum.of("123456789")).isEqualTo(digits);
    Seal seal = new Seal(checksum, "*", 1);
    String line = seal.seal("$123456789");
    assertThat(line).isEqualTo("$123456789" + (digits.isEmpty() ? "" : "*" + digits));
    assertThat(seal.open(line)).contains("$123456789");
    assertThat(seal.open(line.toLowerCase(Locale.ROOT))).contains("$123456789");
  }

  @ParameterizedTest
  @CsvSource({"$12*03x", "$12*04", "$12", "$12 03", "''", "*"})
  void wrongOrMissingCheckDigits(String line) {
    assertThat(new Seal(Checksum.XOR8, "*", 1).open(line)).isEmpty();
    assertThat(new Seal(Checksum.XOR8, "*", 1).open("$12*03")).contains("$12");
  }

  @ParameterizedTest
  @CsvSource({
    "OUT {mA:%.3f},12.34567,OUT 12.346,0.001",
    "OUT {mA:%.3f} MA,-0.0,OUT 0.000 MA,0.001",
    "O{{1}}{uA:%08.1f},4000.25,O{1}004000.3,0.1",
    "{A:%.4e},0.012,1.2000e-02,0",
    "W{pct:%+d},50.4,W+50,1",
    "W{pct:%f},50.5,W50.500000,0.000001",
  })
  void templates(String text, double value, String command, double step) throws Template.Fault {
    Template template = Template.parse(text);
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.GERMANY);
      assertThat(template.of(value)).isEqualTo(command);
    } finally {
      Locale.setDefault(before);
    }
    assertThat(template.step()).isCloseTo(step, within(1e-12));
  }

  @ParameterizedTest
  @CsvSource({
    "OUT,no place",
    "OUT {{mA:%.3f}},no place",
    "OUT {mA:%.3f,not closed",
    "{mA:%.3f}{mA:%.3f},more than one place",
    "OUT {mA},is not known",
    "OUT {mA:%s},is not known",
    "OUT {mA:%n},is not known",
    "OUT {mA:%.3f %d},is not known",
    "OUT {mA:%0.3f},is not known",
  })
  void templatesThatAreWrong(String text, String why) {
    assertThatThrownBy(() -> Template.parse(text))
        .isInstanceOf(Template.Fault.class)
        .hasMessageContaining(why);
  }

  @Test
  void scalesGoBothWays() {
    LineWords.Scale share = new LineWords.Scale(0.16, 4.0);
    assertThat(share.of(50.0)).isCloseTo(12.0, within(1e-12));
    assertThat(share.back(12.0)).isCloseTo(50.0, within(1e-12));
  }
}

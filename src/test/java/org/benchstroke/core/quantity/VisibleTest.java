package org.benchstroke.core.quantity;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;

/** C0 and C1 are those of ECMA-48 and ISO/IEC 6429; the marks of direction are those of UAX 9. */
class VisibleTest {
  @Test
  void whatPeopleWriteStaysAsItIs() {
    String text = "QT-0042 „Größe“ 12 °C ± 0.1 % — 中文\n\tsecond line\r\n";
    assertThat(Visible.of(text)).isSameAs(text);
  }

  @Test
  void everyControlCharacterIsWrittenOut() {
    for (char control = 0; control < 0xa0; control++) {
      boolean acts = (control < 0x20 || control >= 0x7f) && control != '\n' && control != '\t';
      String seen = Visible.of("a" + control + "b");
      assertThat(seen)
          .isEqualTo(acts ? String.format("a\\u%04xb", (int) control) : "a" + control + "b");
    }
  }

  @Test
  void whatTurnsTheOrderOfLettersIsWrittenOut() {
    assertThat(Visible.of("QT\u202e2400")).isEqualTo("QT\\u202e2400");
    assertThat(Visible.of("\u2066a\u2069")).isEqualTo("\\u2066a\\u2069");
    assertThat(Visible.of("a\u2028b")).isEqualTo("a\\u2028b");
  }

  @Test
  void aReturnThatEndsNoLineWouldOverwriteIt() {
    assertThat(Visible.of("FAILED\rPASSED")).isEqualTo("FAILED\\u000dPASSED");
    assertThat(Visible.of("end\r")).isEqualTo("end\\u000d");
  }

  @Test
  void jsonStaysWhatItWas() throws Exception {
    ObjectMapper mapper = new ObjectMapper();
    String json = mapper.writeValueAsString("\u009b31m \u202e \u001b[2J");
    assertThat(mapper.readTree(Visible.of(json))).isEqualTo(mapper.readTree(json));
  }
}

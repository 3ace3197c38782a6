package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.stream.IntStream;
import org.benchstroke.commission.ModbusScan;
import org.benchstroke.io.modbus.UnitIdCheck;
import org.junit.jupiter.api.Test;

/** What a scan says of unit ids that all answer. */
class ScanScreenTest {
  private static String told(int count) {
    StringWriter text = new StringWriter();
    UnitIdCheck.Answer answer = new UnitIdCheck.Answer(UnitIdCheck.Reply.VALUE, "holding 0");
    new ScanScreen(Shown.on(new PrintWriter(text)), false)
        .tellEnd(
            IntStream.rangeClosed(1, count)
                .mapToObj(id -> new ModbusScan.Asked(id, answer, count - id, 0.0))
                .toList());
    return text.toString();
  }

  /** A scan knows of no bench, so it can't say which is a source. */
  @Test
  void aDeviceMayBeALiveSource() {
    assertThat(told(1)).contains("a signal source among them may be live", "hands clear");
    assertThat(told(0)).doesNotContain("may be live");
  }

  @Test
  void threeOfThreeMayBeThreeDevices() {
    assertThat(told(3)).contains("that many devices, or one that takes any", "ask more of them");
  }

  /** 32 unit loads stand on one line of TIA-485 (the standard, from memory). */
  @Test
  void moreThanALineCarriesAreOneDevice() {
    assertThat(told(247)).contains("this is one device that takes any unit id");
    assertThat(told(247)).doesNotContain("that many devices");
  }
}

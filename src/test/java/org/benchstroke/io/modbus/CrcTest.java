package org.benchstroke.io.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.ReferenceData;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PortName;
import org.benchstroke.io.transport.SerialSettings;
import org.junit.jupiter.api.Test;

/** Reference: MODBUS over Serial Line V1.02 (seen), and frames widely published. */
class CrcTest {
  private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();
  private static final JsonNode CHECKS = ReferenceData.json("modbus-checks.json");

  @Test
  void theSpecificationsCheckValues() {
    byte[] bytes = {0x02, 0x07};
    assertThat(Crc.of(bytes, 0, 2)).isEqualTo(hex(CHECKS.at("/crc/check_02_07/register")));
    assertThat(HEX.formatHex(RtuFrame.of(0x02, new byte[] {0x07})))
        .endsWith(CHECKS.at("/crc/check_02_07/wire").asText());
    byte[] digits = "123456789".getBytes(StandardCharsets.US_ASCII);
    assertThat(Crc.of(digits, 0, 9)).isEqualTo(hex(CHECKS.at("/crc/check_123456789")));
  }

  private static int hex(JsonNode node) {
    return Integer.decode(node.asText());
  }

  @Test
  void publishedFramesAreSoundAndWithOneBitTurnedTheyAreNot() {
    JsonNode frames = CHECKS.get("published_rtu_frames");
    assertThat(frames.size()).isEqualTo(7);
    for (JsonNode frame : frames) {
      byte[] bytes = HEX.parseHex(frame.asText());
      assertThat(Crc.endsSound(bytes, 0, bytes.length)).isTrue();
      for (int bit = 0; bit < 8 * bytes.length; bit++) {
        bytes[bit / 8] ^= (byte) (1 << (bit % 8));
        assertThat(Crc.endsSound(bytes, 0, bytes.length)).isFalse();
        bytes[bit / 8] ^= (byte) (1 << (bit % 8));
      }
    }
  }

  @Test
  void everyFrameOfTheSpecificationIsMadeByteForByte() {
    for (Map<String, String> row : ReferenceData.csv("modbus-frames.csv")) {
      byte[] pdu = HEX.parseHex(row.get("pdu_hex"));
      assertThat(HEX.formatHex(RtuFrame.of(0x11, pdu))).isEqualTo(row.get("rtu_frame_unit_0x11"));
    }
  }

  @Test
  void theSilenceBeforeAFrameIsTheSpecifications() {
    JsonNode timing = CHECKS.get("rtu_timing");
    timing
        .get("t3.5_ms_at")
        .properties()
        .forEach(
            entry ->
                assertThat(silence(Integer.parseInt(entry.getKey())) / 1e6)
                    .isCloseTo(entry.getValue().asDouble(), within(1e-4)));
    double fixed = timing.at("/fixed_above_19200/t3.5_us").asDouble() * 1e3;
    assertThat(silence(38_400)).isEqualTo((long) fixed);
    assertThat(silence(115_200)).isEqualTo((long) fixed);
    assertThat(RtuTiming.of(new Endpoint.Tcp("192.0.2.1", 502))).isEqualTo(RtuTiming.NONE);
  }

  private static long silence(int speed) {
    SerialSettings settings =
        new SerialSettings(
            speed,
            8,
            SerialSettings.Parity.EVEN,
            SerialSettings.StopBits.ONE,
            SerialSettings.FlowControl.NONE,
            Optional.empty());
    Endpoint port = new Endpoint.Serial(new PortName.Device("/dev/invalid"), settings);
    return RtuTiming.of(port).silenceNanos();
  }
}

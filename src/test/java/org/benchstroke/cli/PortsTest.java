package org.benchstroke.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import org.benchstroke.io.transport.SerialPorts;
import org.junit.jupiter.api.Test;

/** The list of ports. The ports are invented. */
class PortsTest {
  private static String table(SerialPorts.Found... ports) {
    StringWriter text = new StringWriter();
    Shown out = Shown.on(new PrintWriter(text));
    PortsTable.print(List.of(ports), out);
    out.flush();
    return text.toString().replace(System.lineSeparator(), "\n");
  }

  @Test
  void whatIsKnownIsShownWithTheAddressesToWrite() {
    assertThat(
            table(
                new SerialPorts.Found("/dev/ttyS0", "", "", "", ""),
                new SerialPorts.Found("/dev/ttyUSB0", "Adapter", "9999:0001", "A1", "Maker")))
        .isEqualTo(
            """
            /dev/ttyS0
              address        serial:/dev/ttyS0
            /dev/ttyUSB0
              address        serial:/dev/ttyUSB0
              or             usb:9999:0001:A1
              description    Adapter
              manufacturer   Maker
              serial number  A1
            """);
  }

  @Test
  void noPortIsSaid() {
    assertThat(table()).startsWith("This system lists no serial port.");
  }

  @Test
  void theCommandListsWhatTheSystemLists() throws Exception {
    CommandLines.Done text = CommandLines.execute("ports");
    CommandLines.Done json = CommandLines.execute("ports", "--json");
    assertThat(text.code()).isZero();
    assertThat(json.code()).isZero();
    JsonNode ports = new ObjectMapper().readTree(json.text());
    assertThat(ports.isArray()).isTrue();
    assertThat(ports.size()).isEqualTo(SerialPorts.list().size());
    for (JsonNode port : ports) {
      assertThat(port.fieldNames())
          .toIterable()
          .containsExactly("path", "description", "usb", "serial_number", "manufacturer");
      assertThat(text.text()).contains(port.get("path").asText());
    }
  }
}

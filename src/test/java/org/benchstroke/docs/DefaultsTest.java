package org.benchstroke.docs;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import org.benchstroke.io.line.Checksum;
import org.benchstroke.io.scpi.ScpiHabits;
import org.benchstroke.io.transport.SerialSettings;
import org.junit.jupiter.api.Test;

/** The words that the bench file's page lists, and the one that it calls the usual: the code's. */
class DefaultsTest {
  private static final Path PAGE = Path.of("docs/reference/bench-file.md");

  private static Pages.Row row(String table, String key) {
    List<Pages.Row> rows =
        Pages.rows(PAGE, "key").stream()
            .filter(r -> r.table().equals(table) && r.first().contains(key))
            .toList();
    assertThat(rows).as(table + "." + key).hasSize(1);
    return rows.get(0);
  }

  private static List<String> words(String cell) {
    return Pattern.compile("\"([^\"]+)\"").matcher(cell).results().map(m -> m.group(1)).toList();
  }

  private static void same(String table, String key, List<String> all, String usual) {
    Pages.Row row = row(table, key);
    assertThat(words(row.cells().get(1))).as(key).containsExactlyInAnyOrderElementsOf(all);
    assertThat(words(row.cells().get(2))).as(key).containsExactly(usual);
  }

  @Test
  void howAnInstrumentIsTalkedTo() {
    same(
        "instrument.talk",
        "check",
        Arrays.stream(ScpiHabits.Checking.values()).map(ScpiHabits.Checking::key).toList(),
        ScpiHabits.USUAL.checking().key());
    same(
        "instrument.talk",
        "settle",
        Arrays.stream(ScpiHabits.Settling.values()).map(ScpiHabits.Settling::key).toList(),
        ScpiHabits.USUAL.settling().key());
    same(
        "instrument.talk",
        "checksum",
        Arrays.stream(Checksum.values()).map(Checksum::key).toList(),
        Checksum.NONE.key());
  }

  @Test
  void ofASerialLine() {
    SerialSettings usual = SerialSettings.USUAL;
    same(
        "line",
        "parity",
        Arrays.stream(SerialSettings.Parity.values()).map(SerialSettings.Parity::key).toList(),
        usual.parity().key());
    same(
        "line",
        "flow_control",
        Arrays.stream(SerialSettings.FlowControl.values())
            .map(SerialSettings.FlowControl::key)
            .toList(),
        usual.flowControl().key());
    assertThat(row("line", "speed").cells().get(2)).endsWith(" " + usual.speed());
    assertThat(row("line", "data_bits").cells().get(2)).endsWith(" " + usual.dataBits());
  }
}

package org.benchstroke.io.scpi;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import org.benchstroke.io.instrument.Identity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ScpiWordsTest {
  // Forms NR1, NR2, NR3: IEEE 488.2 8.7.2 to 8.7.4, from memory. MA is milliampere.
  @ParameterizedTest
  @CsvSource({
    "12, 12",
    "+4, 4",
    "-4, -4",
    "0.012003, 0.012003",
    ".5, 0.5",
    "4., 4",
    "+1.2003E-02, 0.012003",
    "1.2003e-2A, 0.012003",
    "12.003 mA, 0.012003",
    "12003 UA, 0.012003",
  })
  void readsEachFormOfANumber(String text, double expected) {
    ScpiNumber.Result result = ScpiNumber.parse(text, "A");
    assertThat(result).isInstanceOf(ScpiNumber.Value.class);
    assertThat(((ScpiNumber.Value) result).value()).isCloseTo(expected, within(1e-12));
  }

  // 9.9E37 and 9.91E37: SCPI-1999, seen in open libraries; -9.9E37 from memory.
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "9.9E37 | overrange",
        "-9.90000000E+37 | overrange",
        "9.91E+37 | not a number",
        "1.2E-2 V | the unit is V, not A",
        "1.2,1.3 | more than one value",
        "1,2 | more than one value",
        "NAN | not a number",
        "INF | not a number",
        "1.2.3 | not a number",
        "1E | the unit is E, not A",
        "0x10 | not a number",
        "OFF | not a number",
        "-- | not a number",
      })
  void whatIsNoNumberIsAFault(String text, String words) {
    ScpiNumber.Result result = ScpiNumber.parse(text, "A");
    assertThat(result).isInstanceOf(ScpiNumber.Fault.class);
    assertThat(((ScpiNumber.Fault) result).why()).contains(words);
  }

  // Reference: SCPI-1999 Volume 2, error/event list (numbers and texts seen in an open library).
  @Test
  void everyErrorOfTheStandardIsReadInItsOwnWords() throws IOException {
    List<String> lines = reference("/reference/scpi-error-codes.csv");
    assertThat(lines).hasSizeGreaterThan(100);
    for (String line : lines) {
      String[] fields = line.split(",", -1);
      String reply = fields[0] + ",\"" + fields[1] + ";slot 2\"";
      ScpiError error = ScpiError.parse(reply).orElseThrow();
      assertThat(error.code()).isEqualTo(Integer.parseInt(fields[0]));
      assertThat(error.text()).isEqualTo(fields[1] + ";slot 2");
      assertThat(error.none()).isEqualTo(fields[2].equals("none"));
      if (!error.none()) {
        String kind = fields[0].matches("-[1-4]..") ? fields[2] + " error" : fields[2];
        assertThat(error.words()).isEqualTo(kind + " " + reply);
      }
    }
  }

  // Semicolons part the answers of a compound message: IEEE 488.2 8.4.1, from memory.
  @Test
  void semicolonsInQuotesPartNothing() {
    assertThat(ScpiText.answers("0;0,\"No error\"")).containsExactly("0", "0,\"No error\"");
    assertThat(ScpiText.answers("4;-222,\"a;\"\"b;c\"\"\" ; 1"))
        .containsExactly("4", "-222,\"a;\"\"b;c\"\"\"", "1");
    assertThat(ScpiText.answers("4;-222,'it;s \"x;'")).containsExactly("4", "-222,'it;s \"x;'");
    assertThat(ScpiText.answers("12")).containsExactly("12");
    assertThat(ScpiText.answers("4;-222,\"open; ended")).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "0", "No error", "-222 \"Data out of range\"", "1.5,\"x\"", "0,x"})
  void whatIsNoEntryOfTheErrorQueueIsNotTakenForOne(String reply) {
    assertThat(ScpiError.parse(reply)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "Example Instruments,LS24,1001,1.0 | Example Instruments | LS24 | 1001 | 1.0",
        "  Example Instruments , LS24 , 1001 , 1.0  | Example Instruments | LS24 | 1001 | 1.0",
        "'Example Instruments','LS24','1001','1.0' | Example Instruments | LS24 | 1001 | 1.0",
        "\"Example Instruments\",\"LS24\",\"1001\",\"1.0\" | Example Instruments|LS24|1001|1.0",
        "\"Example Instruments,LS24,1001,1.0\" | Example Instruments | LS24 | 1001 | 1.0",
        "\"Example's,LS24,1001,1.0\" | Example's | LS24 | 1001 | 1.0",
        "Example Instruments,LS24,1001,1.0,boot 2 | Example Instruments|LS24|1001|1.0,boot 2",
      })
  void identityIsFourFields(String raw, String maker, String model, String serial, String level) {
    assertThat(ScpiIdentity.parse(raw)).contains(new Identity(maker, model, serial, level, raw));
  }

  // A 0 stands for "not known": IEEE 488.2 10.14.
  @Test
  void aZeroMeansThatItCanNotTell() {
    Identity identity = ScpiIdentity.parse("Example Instruments,LS24,0,0").orElseThrow();
    assertThat(identity.serial()).isEmpty();
    assertThat(identity.firmware()).isEmpty();
  }

  @Test
  void threeFieldsAreNoIdentity() {
    assertThat(ScpiIdentity.parse("Example Instruments,LS24,1001")).isEmpty();
  }

  private static List<String> reference(String path) throws IOException {
    try (InputStream in =
        Objects.requireNonNull(ScpiWordsTest.class.getResourceAsStream(path), path)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> !line.startsWith("#") && !line.startsWith("code,"))
          .toList();
    }
  }
}

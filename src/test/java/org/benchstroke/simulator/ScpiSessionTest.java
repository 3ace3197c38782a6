package org.benchstroke.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.io.instrument.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The source and the meter as a controller over a stream sees them. */
class ScpiSessionTest {
  private final List<Double> driven = new ArrayList<>();
  private final ScpiSession source =
      new ScpiSession(
          new SourceInstrument(
              "Example Instruments,LS24,900101,1.0", specimen(0.02, 24.0, 1), driven::add));
  private final ScpiSession meter =
      new ScpiSession(
          MeterInstrument.loop(
              "Example Instruments,LM6,900202,1.0", () -> specimen(0.01, 30.0, 2).shown(12.0)));

  /** ±(0.02 % of reading + 2 µA) for a source, half of that for a meter. */
  private static Accuracy accuracy(double percent) {
    return new Accuracy(percent, 0.0, 0.0, percent / 10.0);
  }

  private static Specimen specimen(double percent, double high, long seed) {
    OptionalDouble top = OptionalDouble.of(high);
    return new Specimen(
        new Channel("mA", accuracy(percent), 0.001, OptionalDouble.of(0.0), top), seed, List.of());
  }

  private static String ask(ByteSession session, String message) {
    byte[] sent = (message + "\n").getBytes(StandardCharsets.ISO_8859_1);
    return new String(session.feed(sent), StandardCharsets.US_ASCII);
  }

  // Forms of headers, paths and numbers: IEEE 488.2 and SCPI-1999 volume 1, clause 6 (from memory).
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "SOURce:CURRent:LEVel 0.012;:SOUR:CURR? | 1.2000000E-02",
        "sour:curr 12 mA;curr? | 1.2000000E-02",
        ":SOURCE:CURRENT 12MA;:sour:current:level? | 1.2000000E-02",
        "SOUR:CURR:LEV 12000uA;LEV? | 1.2000000E-02",
        "SOUR:CURR +1.2e-2;*OPC?;CURR? | 1;1.2000000E-02",
        "SOUR:CURR .012 A;CURR? | 1.2000000E-02",
        "SOUR:CURR 0.0120004;CURR? | 1.2000000E-02",
        "OUTP? | 0",
        "OUTP ON;OUTP? | 1",
        "OUTPUT:STATE 1;:outp:stat? | 1",
        "OUTP 1;OUTP 0;OUTP? | 0",
        "OUTP ON;*RST;OUTP? | 0",
        "*IDN? | Example Instruments,LS24,900101,1.0",
        "*TST?;*OPC? | 0;1",
        "SYST:ERR? | 0,\"No error\"",
        "SYSTEM:ERROR:NEXT? | 0,\"No error\"",
        "*CLS;*ESE 32;*ESE? | 32",
        "*SRE 255;*SRE? | 191",
        "*ESR? | 128",
        "*CLS;*OPC;*ESR? | 1",
        "*CLS;*STB?;*STB? | 0;16",
        "*CLS;*STB?;:SYSTem:ERRor? | 0;0,\"No error\"",
      })
  void answers(String message, String answer) {
    assertThat(ask(source, message)).isEqualTo(answer + "\n");
  }

  // Numbers and texts: SCPI-1999 volume 2 (see reference/scpi-error-codes.csv).
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "FOO:BAR 1 | -113 | 32",
        "SOUR:CURR:LEVE 1 | -113 | 32",
        "SOURC:CURR 1 | -113 | 32",
        "SOUR::CURR 1 | -113 | 32",
        "MEAS:CURR? | -113 | 32",
        "SOUR:CURRENTLEVELS 1 | -112 | 32",
        "SO#R:CURR 1 | -101 | 32",
        "SOUR:CURR | -109 | 32",
        "SOUR:CURR 1,2 | -108 | 32",
        "OUTP? 1 | -108 | 32",
        "*RST 1 | -108 | 32",
        "SOUR:CURR TWELVE | -148 | 32",
        "SOUR:CURR \"12\" | -158 | 32",
        "SOUR:CURR 1.2.3 | -121 | 32",
        "SOUR:CURR 12 V | -131 | 32",
        "SOUR:CURR 1e99999999 | -123 | 32",
        "OUTP MAYBE | -141 | 32",
        "OUTP 1 V | -138 | 32",
        "*ESE ON | -148 | 32",
        "*ESE 256 | -222 | 16",
        "SOUR:CURR 0.0241 | -222 | 16",
        "SOUR:CURR -1 MA | -222 | 16",
        "*IDN?;*OPC? | -440 | 4",
      })
  void refusesWithTheStandardsNumber(String message, int number, int eventBit) throws IOException {
    ask(source, "*CLS");
    ask(source, message);
    assertThat(ask(source, "SYST:ERR?"))
        .isEqualTo(number + ",\"" + standardTexts().get(number) + "\"\n");
    assertThat(ask(source, "*ESR?")).isEqualTo(eventBit + "\n");
    assertThat(ask(source, "SYST:ERR?")).isEqualTo("0,\"No error\"\n");
  }

  // Bits 2 and 5: SCPI-1999 volume 1, 9.1 and IEEE 488.2 11.2 (from memory).
  @Test
  void theStatusByteTellsOfTheQueueAndOfEventsBeforeTheEntryIsTaken() {
    ask(source, "*CLS;*ESE 60");
    ask(source, "SOUR:CURR 0.0241");
    assertThat(ask(source, "*STB?;:SYSTem:ERRor?")).isEqualTo("36;-222,\"Data out of range\"\n");
    assertThat(ask(source, "*STB?;:SYSTem:ERRor?")).isEqualTo("32;0,\"No error\"\n");
    assertThat(ask(source, "*ESR?")).isEqualTo("16\n");
    assertThat(ask(source, "*STB?;:SYSTem:ERRor?")).isEqualTo("0;0,\"No error\"\n");
  }

  // Source: SCPI-1999 volume 2, error/event list; seen in an open SCPI parser library.
  @Test
  void everyErrorHasTheStandardsText() throws IOException {
    for (ScpiError.Code code : ScpiError.Code.values()) {
      String[] entry = code.entry().split(",", 2);
      assertThat('"' + standardTexts().get(Integer.valueOf(entry[0])) + '"').isEqualTo(entry[1]);
    }
  }

  private static Map<Integer, String> standardTexts() throws IOException {
    Map<Integer, String> texts = new HashMap<>();
    for (String line :
        Files.readAllLines(Path.of("src/test/resources/reference/scpi-error-codes.csv"))) {
      String[] fields = line.split(",", -1);
      if (fields[0].matches("-?[0-9]+")) {
        texts.put(Integer.valueOf(fields[0]), fields[1]);
      }
    }
    return texts;
  }

  @Test
  void sourceDrivesWithinItsDataSheetAndOnlyWithItsOutputOn() {
    ask(source, "SOUR:CURR 20 mA");
    assertThat(driven).containsExactly(0.0);
    ask(source, "OUTP ON");
    double error = driven.get(1) - 20.0;
    assertThat(Math.abs(error)).isGreaterThan(0.0);
    assertThat(Math.abs(error)).isLessThan(accuracy(0.02).halfWidthAt(20.0));
    ask(source, "OUTP OFF");
    assertThat(driven.get(2)).isZero();
  }

  @Test
  void meterShowsTheLoopWithinItsDataSheet() {
    for (int i = 0; i < 100; i++) {
      double amps = Double.parseDouble(ask(meter, "MEAS:CURR:DC?").strip());
      assertThat(Math.abs(amps * 1000.0 - 12.0)).isLessThan(accuracy(0.01).halfWidthAt(12.0));
    }
    assertThat(ask(meter, "measure:current?;:SYST:ERR?")).endsWith(";0,\"No error\"\n");
  }

  @Test
  void commandErrorDropsTheRestOfItsMessageAndAnExecutionErrorDoesNot() {
    assertThat(ask(source, "*OPC?;FOO;OUTP ON")).isEqualTo("1\n");
    assertThat(ask(source, "OUTP?")).isEqualTo("0\n");
    ask(source, "SOUR:CURR 99;:OUTP ON");
    assertThat(ask(source, "OUTP?")).isEqualTo("1\n");
  }

  @Test
  void fullErrorQueueSaysSo() {
    for (int i = 0; i < 20; i++) {
      ask(source, "FOO");
    }
    for (int i = 0; i < 15; i++) {
      assertThat(ask(source, "SYST:ERR?")).startsWith("-113,");
    }
    assertThat(ask(source, "SYST:ERR?")).isEqualTo("-350,\"Queue overflow\"\n");
    assertThat(ask(source, "SYST:ERR?")).startsWith("0,");
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 5, 7, 11, 64})
  void chunksOfAnySizeGiveTheSameAnswers(int size) {
    byte[] all =
        "*IDN?\r\nSOUR:CURR 4mA;CURR?\n\nOUTP ON;OUTP?\nFOO\nSYST:ERR?\n"
            .getBytes(StandardCharsets.US_ASCII);
    StringBuilder answers = new StringBuilder();
    for (byte[] chunk : Chunks.of(all, size)) {
      answers.append(new String(source.feed(chunk), StandardCharsets.US_ASCII));
    }
    assertThat(answers)
        .hasToString(
            "Example Instruments,LS24,900101,1.0\n4.0000000E-03\n1\n-113,\"Undefined header\"\n");
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void garbageNeverKillsIt(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    String letters = "SOURCE:CURR? *IDN;,.0123456789eE+-mAuV\"'#\n\r\t ";
    for (int i = 0; i < 2000; i++) {
      byte[] chunk = new byte[random.nextInt(40)];
      for (int k = 0; k < chunk.length; k++) {
        boolean wild = random.nextInt(20) == 0;
        int letter = letters.charAt(random.nextInt(letters.length()));
        chunk[k] = (byte) (wild ? random.nextInt(256) : letter);
      }
      source.feed(chunk);
    }
    assertThat(ask(source, "\n*CLS\n*OPC?")).endsWith("1\n");
  }

  @Test
  void messageWithoutAnEndIsCutOff() {
    source.feed("X".repeat(1_000_000).getBytes(StandardCharsets.US_ASCII));
    ask(source, "");
    assertThat(ask(source, "SYST:ERR?")).isEqualTo("-363,\"Input buffer overrun\"\n");
  }
}

package org.benchstroke.io.scpi;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.io.instrument.Identity;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.TextLine;
import org.benchstroke.io.instrument.TextManner;
import org.benchstroke.io.transport.Replay;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScpiTranscriptTest {
  private static final Current TWELVE = Current.ofMilliamps(12.0);

  private static ScpiSignalSource source(Replay replay) {
    return new ScpiSignalSource("source", line(replay), Channels.milliamps(0.001, 0.0, 24.0));
  }

  private static ScpiMeter<Current> meter(Replay replay) {
    return ScpiMeter.loop("loop meter", line(replay), Channels.milliamps(0.0001, 0.0, 30.0));
  }

  private static ScpiLine line(Replay replay) {
    return line(replay, ScpiHabits.Checking.ERROR_QUEUE);
  }

  private static ScpiLine line(Replay replay, ScpiHabits.Checking checking) {
    return new ScpiLine(
        new TextLine(replay.links(), Replay.ENDPOINT, replay.clock()),
        new ScpiHabits(TextManner.LINE_FEED, ScpiHabits.Settling.NONE, checking));
  }

  private static ScpiSignalSource withStatusByte(Replay replay) {
    return new ScpiSignalSource(
        "source",
        line(replay, ScpiHabits.Checking.STATUS_BYTE),
        Channels.milliamps(0.001, 0.0, 24.0));
  }

  private interface Call {
    void make() throws InstrumentException;
  }

  private static InstrumentException failure(Call call) {
    return catchThrowableOfType(InstrumentException.class, call::make);
  }

  @Test
  void identityIsReadThroughQuotesAndSpaces() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-identity",
        replay -> {
          Optional<Identity> identity = source(replay).identify(replay.inMillis(500));
          assertThat(identity)
              .contains(
                  new Identity(
                      "Example Instruments",
                      "LS24",
                      "1001",
                      "",
                      "\"Example Instruments\", LS24 ,1001,0"));
        });
  }

  @Test
  void anotherTerminatorSettlingAndTheEventRegister() throws InstrumentException {
    ScpiHabits habits =
        new ScpiHabits(
            new TextManner("\r", "\r\n", 0L),
            ScpiHabits.Settling.OPERATION_COMPLETE,
            ScpiHabits.Checking.BOTH);
    Replay.atEveryChunkSize(
        "scpi-habits",
        replay -> {
          TextLine text = new TextLine(replay.links(), Replay.ENDPOINT, replay.clock());
          ScpiSignalSource source =
              new ScpiSignalSource(
                  "source", new ScpiLine(text, habits), Channels.milliamps(0.001, 0.0, 24.0));
          source.release(replay.inMillis(500));
          InstrumentException failure = failure(() -> source.release(replay.inMillis(500)));
          assertThat(failure.kind()).isEqualTo(Kind.REFUSED);
          assertThat(failure)
              .hasMessageContaining("execution error and command error")
              .hasMessageContaining("OUTPut OFF; *ESR? -> 48");
        });
  }

  @Test
  void theStatusByteAndTheErrorQueueComeInOneReply() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-status-apply",
        replay -> {
          ScpiSignalSource source = withStatusByte(replay);
          assertThat(source.apply(TWELVE, replay.inMillis(500)).value().milliamps())
              .isCloseTo(12.0, within(1e-9));
          source.release(replay.inMillis(500));
        });
  }

  @Test
  void aRefusalByTheStatusByteEmptiesQueueAndEvents() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-status-refused",
        replay -> {
          ScpiSignalSource source = withStatusByte(replay);
          InstrumentException failure = failure(() -> source.apply(TWELVE, replay.inMillis(500)));
          assertThat(failure.kind()).isEqualTo(Kind.REFUSED);
          assertThat(failure)
              .hasMessageContaining(
                  "execution error -222,\"Data out of range;limit \"high\"\"; then the maker's"
                      + " own error 201,\"Terminal A open\"")
              .hasMessageContaining(
                  "after SOURce:CURRent 0.012000: *STB?;:SYSTem:ERRor? -> 36;-222,");
          source.release(replay.inMillis(500));
        });
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "scpi-status-event | REFUSED | OUTPut OFF; *ESR? -> 16",
        "scpi-status-event-unnamed | BAD_REPLY | the event register none",
        "scpi-status-queue-empty | BAD_REPLY | the error queue none",
        "scpi-status-one-answer | BAD_REPLY | write check = \"error queue\"",
        "scpi-status-three-answers | BAD_REPLY | write check = \"error queue\"",
        "scpi-status-open-quote | BAD_REPLY | write check = \"error queue\"",
        "scpi-status-too-large | BAD_REPLY | a status byte of 0 to 255",
      })
  void aStatusByteThatIsNotQuietIsNeverPassedOver(String transcript, Kind kind, String words)
      throws InstrumentException {
    Replay.atEveryChunkSize(
        transcript,
        replay -> {
          InstrumentException failure =
              failure(() -> withStatusByte(replay).release(replay.inMillis(500)));
          assertThat(failure.kind()).isEqualTo(kind);
          assertThat(failure).hasMessageContaining(words);
        });
  }

  @Test
  void theOutputGoesOnAfterTheCurrentIsSet() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-apply-output-off",
        replay -> {
          Reading<Current> reading = source(replay).apply(TWELVE, replay.inMillis(500));
          assertThat(reading.value().milliamps()).isCloseTo(12.0, within(1e-9));
          assertThat(reading.raw()).isEqualTo("1.200000E-02");
          // OUTPut ON goes out 50 + 5 + 2 ms after the start and is carried out 4 ms later.
          assertThat(reading.askedNanos()).isEqualTo(57_000_000L);
          assertThat(reading.answeredNanos()).isEqualTo(61_000_000L);
        });
  }

  @Test
  void anOutputThatIsOnIsLeftOn() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-apply-output-on",
        replay -> {
          Reading<Current> reading =
              source(replay).apply(Current.ofMilliamps(4.0), replay.inMillis(500));
          assertThat(reading.value().milliamps()).isCloseTo(4.0, within(1e-9));
        });
  }

  @Test
  void aRefusalSaysWhatTheInstrumentSaid() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-apply-refused",
        replay -> {
          ScpiSignalSource source = source(replay);
          InstrumentException failure = failure(() -> source.apply(TWELVE, replay.inMillis(500)));
          assertThat(failure.kind()).isEqualTo(Kind.REFUSED);
          assertThat(failure)
              .hasMessage(
                  "source at tcp://bench.invalid:5025: instrument refused: execution error"
                      + " -222,\"Data out of range\"; then the maker's own error 201,\"Terminal"
                      + " \"A\" open\" (SOURce:CURRent 0.012000 -> -222,\"Data out of range\");"
                      + " read the instrument's own error and its manual");
          source.apply(Current.ofMilliamps(4.0), replay.inMillis(500));
        });
  }

  @Test
  void aSettingThatReadsBackOtherwiseIsABadReply() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-apply-reads-back-other",
        replay -> {
          InstrumentException failure =
              failure(() -> source(replay).apply(TWELVE, replay.inMillis(500)));
          assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
          assertThat(failure)
              .hasMessageContaining("reads back as 11.990 mA, not 12.000 mA")
              .hasMessageContaining("SOURce:CURRent 0.012000; SOURce:CURRent? -> 0.011990");
        });
  }

  @ParameterizedTest
  @CsvSource({
    "scpi-apply-output-stays-off, true, output is off",
    "scpi-release-stays-on, false, output is on"
  })
  void anOutputThatDoesNotObeyIsABadReply(String transcript, boolean apply, String words)
      throws InstrumentException {
    Replay.atEveryChunkSize(
        transcript,
        replay -> {
          ScpiSignalSource source = source(replay);
          InstrumentException failure =
              failure(
                  () -> {
                    if (apply) {
                      source.apply(TWELVE, replay.inMillis(500));
                    } else {
                      source.release(replay.inMillis(500));
                    }
                  });
          assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
          assertThat(failure).hasMessageContaining(words);
        });
  }

  @Test
  void releaseIsReadBack() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-release",
        replay -> {
          source(replay).release(replay.inMillis(500));
          assertThat(replay.clock().nanos()).isEqualTo(50_000_000L);
        });
  }

  @Test
  void aFineResolutionIsSentInFull() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-apply-fine",
        replay -> {
          ScpiSignalSource fine =
              new ScpiSignalSource("source", line(replay), Channels.milliamps(5e-5, 0.0, 24.0));
          Current wanted = Current.ofMilliamps(12.34565);
          assertThat(fine.apply(wanted, replay.inMillis(500)).value().milliamps())
              .isCloseTo(12.34565, within(1e-9));
        });
  }

  @Test
  void aLateReplyIsNeverTakenForTheNext() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-late-reply",
        replay -> {
          ScpiMeter<Current> meter = meter(replay);
          assertThat(failure(() -> meter.read(replay.inMillis(100))).kind())
              .isEqualTo(Kind.NO_REPLY);
          Reading<Current> reading = meter.read(replay.inMillis(500));
          assertThat(reading.value().milliamps()).isCloseTo(12.003, within(1e-9));
          assertThat(reading.raw()).isEqualTo("1.2003E-02");
        });
  }

  @Test
  void aLineThatNobodyAskedForIsNoticedBeforeTheNextQuestion() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-stale-line",
        replay -> {
          ScpiMeter<Current> meter = meter(replay);
          meter.read(replay.inMillis(500));
          replay.passMillis(10);
          InstrumentException failure = failure(() -> meter.read(replay.inMillis(500)));
          assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
          assertThat(failure).hasMessageContaining("11 bytes that were not asked for");
          assertThat(meter.read(replay.inMillis(500)).value().milliamps())
              .isCloseTo(12.005, within(1e-9));
        });
  }

  @ParameterizedTest
  @CsvSource({
    "scpi-garbage, BAD_REPLY, not printable ASCII",
    "scpi-overrange, BAD_REPLY, overrange",
    "scpi-empty-line, BAD_REPLY, empty line",
    "scpi-half-line-then-gone, PORT_GONE, part of a line came",
    "scpi-slow-drip, NO_REPLY, part of a line came",
  })
  void whatIsNoReadingIsAnErrorOfItsKind(String transcript, Kind kind, String words)
      throws InstrumentException {
    Replay.atEveryChunkSize(
        transcript,
        replay -> {
          ScpiMeter<Current> meter = meter(replay);
          meter.connect(replay.inMillis(500));
          long start = replay.clock().nanos();
          InstrumentException failure = failure(() -> meter.read(replay.inMillis(100)));
          assertThat(failure.kind()).isEqualTo(kind);
          assertThat(failure)
              .hasMessageContaining(words)
              .hasMessageContaining("MEASure:CURRent? -> ");
          assertThat(replay.clock().nanos() - start).isLessThanOrEqualTo(100_000_000L);
        });
  }

  @Test
  void aSourceAndAMeterMayShareOneBox() throws InstrumentException {
    Replay.atEveryChunkSize(
        "scpi-shared",
        replay -> {
          ScpiLine line = line(replay);
          ScpiSignalSource source =
              new ScpiSignalSource("source", line, Channels.milliamps(0.001, 0.0, 24.0));
          ScpiMeter<Current> meter =
              ScpiMeter.loop("meter", line, Channels.milliamps(0.0001, 0.0, 30.0));
          source.connect(replay.inMillis(500));
          meter.connect(replay.inMillis(500));
          source.release(replay.inMillis(500));
          assertThat(meter.read(replay.inMillis(500)).value().milliamps())
              .isCloseTo(0.002, within(1e-9));
          meter.disconnect();
          source.disconnect();
        });
  }
}

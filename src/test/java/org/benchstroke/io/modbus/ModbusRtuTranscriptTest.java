package org.benchstroke.io.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.PositionTransmitter;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PortName;
import org.benchstroke.io.transport.PtyPair;
import org.benchstroke.io.transport.Replay;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every fault of a serial line, in virtual time. */
class ModbusRtuTranscriptTest {
  private static final Endpoint PORT =
      new Endpoint.Serial(new PortName.Device("/dev/invalid"), PtyPair.SETTINGS);

  private static ModbusInstrument instrument(Replay replay) {
    return new ModbusInstrument(
        "input module",
        new ModbusRtuLine(replay.links(), PORT, RtuTiming.of(PORT), replay.clock()),
        ModbusRig.points(ModbusRig.SWITCHES));
  }

  private static PositionTransmitter transmitter(Replay replay) {
    return instrument(replay).positionTransmitter().orElseThrow();
  }

  private static InstrumentException failure(PositionTransmitter transmitter, Replay replay) {
    return catchThrowableOfType(
        InstrumentException.class, () -> transmitter.read(replay.inMillis(100)));
  }

  @Test
  void aFloatIsRead() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-rtu-float",
        replay -> {
          Reading<Position> reading = transmitter(replay).read(replay.inMillis(100));
          assertThat(reading.raw()).isEqualTo("04 00 00 -> 42 48 00 00 = 50.0");
          // The port was just opened: whatever stood in its buffer is gone after 30 ms.
          assertThat(reading.askedNanos()).isEqualTo(30_000_000L);
          assertThat(reading.answeredNanos()).isEqualTo(34_000_000L);
        });
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "bad-crc | bad CRC: the frame says",
        "wrong-address | wrong address: the reply is from unit id 18, not 17",
        "wrong-function | wrong function: the reply is for function 03, not 04",
        "wrong-length | wrong length: 4 bytes of data were asked for",
        "garbage-before | garbage before the reply: 2 bytes",
        "noise | bad CRC",
        "echo | echo: the line gives back what is sent",
      })
  void aFaultIsNamedAndTheReadAskedOnceMore(String transcript, String words)
      throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-rtu-" + transcript,
        replay -> {
          Reading<Position> reading = transmitter(replay).read(replay.inMillis(200));
          assertThat(reading.raw())
              .startsWith("asked again after " + words)
              .endsWith("04 00 00 -> 42 48 00 00 = 50.0");
          assertThat(reading.answeredNanos() - reading.askedNanos()).isEqualTo(4_000_000L);
        });
  }

  @Test
  void aCutFrameIsNamed() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-rtu-cut",
        replay -> {
          InstrumentException failure = failure(transmitter(replay), replay);
          assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
          assertThat(failure).hasMessageContaining("cut frame: 4 of 9 bytes came in time");
          assertThat(replay.clock().nanos()).isEqualTo(100_000_000L);
        });
  }

  @Test
  void aRefusalIsNoFaultOfTheLine() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-rtu-refused",
        replay -> {
          PositionTransmitter transmitter = transmitter(replay);
          InstrumentException refused = failure(transmitter, replay);
          assertThat(refused.kind()).isEqualTo(Kind.REFUSED);
          assertThat(refused).hasMessageContaining("exception 02, illegal data address");
          assertThat(transmitter.read(replay.inMillis(100)).raw()).endsWith("= 50.0");
        });
  }

  @ParameterizedTest
  @CsvSource({
    "no-reply, in step again by 11 04 00 00 00 03",
    "late-drained, in step again by 11 04 00 00 00 03",
    "late-after-all, asked again after late reply: it answers an earlier request"
  })
  void aReplyThatComesTooLateNeverPassesForTheNext(String transcript, String words)
      throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-rtu-" + transcript,
        replay -> {
          PositionTransmitter transmitter = transmitter(replay);
          assertThat(failure(transmitter, replay).kind()).isEqualTo(Kind.NO_REPLY);
          Reading<Position> reading = transmitter.read(replay.inMillis(100));
          assertThat(reading.raw()).startsWith(words).endsWith("04 00 00 -> 42 48 00 00 = 50.0");
        });
  }

  @Test
  void bytesThatWaitBeforeARequestAreThrownAwayAndNamed() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-rtu-stale",
        replay -> {
          PositionTransmitter transmitter = transmitter(replay);
          assertThat(transmitter.read(replay.inMillis(100)).raw()).endsWith("= 50.0");
          assertThat(transmitter.read(replay.inMillis(100)).raw())
              .startsWith("asked again after late reply: 9 bytes were waiting")
              .endsWith("= 50.0");
        });
  }

  @ParameterizedTest
  @CsvSource({"write-lost", "write-echo-late"})
  void aWriteIsNeverSentTwiceButReadBack(String transcript) throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-rtu-" + transcript,
        replay -> instrument(replay).motorPower().orElseThrow().set(true, replay.inMillis(500)));
  }

  @Test
  void aGarbledEchoIsNoProof() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-rtu-write-garbled",
        replay -> {
          InstrumentException failure =
              catchThrowableOfType(
                  InstrumentException.class,
                  () ->
                      instrument(replay)
                          .motorPower()
                          .orElseThrow()
                          .set(true, replay.inMillis(500)));
          assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
          assertThat(failure).hasMessageContaining("coil 0 was set to 1 but reads 0");
        });
  }

  @Test
  void theEchoOfAnotherWriteIsNoProof() throws InstrumentException {
    Replay.atEveryChunkSize(
        "modbus-rtu-write-other-echo",
        replay -> {
          InstrumentException failure =
              catchThrowableOfType(
                  InstrumentException.class,
                  () ->
                      instrument(replay)
                          .motorPower()
                          .orElseThrow()
                          .set(true, replay.inMillis(500)));
          assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
          assertThat(failure)
              .hasMessageContaining("the echo differs from the write")
              .hasMessageContaining("coil 0 was set to 1 but reads 0");
        });
  }
}

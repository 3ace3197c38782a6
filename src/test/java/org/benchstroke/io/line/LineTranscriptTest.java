package org.benchstroke.io.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.instrument.SignalSource;
import org.benchstroke.io.instrument.TextLine;
import org.benchstroke.io.instrument.TextManner;
import org.benchstroke.io.transport.Replay;
import org.junit.jupiter.api.Test;

class LineTranscriptTest {
  private interface Call {
    void make() throws InstrumentException;
  }

  private static InstrumentException failure(Call call) {
    return catchThrowableOfType(InstrumentException.class, call::make);
  }

  private static LineInstrument source(Replay replay) {
    return LineRig.instrument(LineRig.SOURCE, replay.links(), replay.clock());
  }

  private static double loop(LineInstrument source, Replay replay) throws InstrumentException {
    return source.loopMeter().orElseThrow().read(replay.inMillis(200)).value().milliamps();
  }

  @Test
  void theOutputGoesOnAfterTheCurrentIsSet() throws InstrumentException {
    Replay.atEveryChunkSize(
        "line-apply",
        replay -> {
          SignalSource source = source(replay).signalSource().orElseThrow();
          Reading<Current> reading = source.apply(Current.ofMilliamps(12.0), replay.inMillis(500));
          assertThat(reading.value().milliamps()).isCloseTo(12.0, within(1e-9));
          assertThat(reading.raw()).isEqualTo("12.000 mA");
          // 50 ms of quiet; then each exchange takes 3 ms and a pause of 20 ms: OUT ON is the 4th.
          assertThat(reading.askedNanos()).isEqualTo((50 + 3 * 23) * 1_000_000L);
          assertThat(reading.answeredNanos()).isEqualTo((50 + 3 * 23 + 3) * 1_000_000L);
        });
  }

  @Test
  void aRefusalIsToldWithTheExchangeAndLeavesTheConnection() throws InstrumentException {
    Replay.atEveryChunkSize(
        "line-refused",
        replay -> {
          LineInstrument instrument = source(replay);
          SignalSource source = instrument.signalSource().orElseThrow();
          InstrumentException failure =
              failure(() -> source.apply(Current.ofMilliamps(23.5), replay.inMillis(500)));
          assertThat(failure.kind()).isEqualTo(Kind.REFUSED);
          assertThat(failure)
              .hasMessage(
                  "hand-held source at tcp://bench.invalid:5025: instrument refused: it answers"
                      + " error 5 (OUT 23.500 -> ERR 5); read the instrument's own error and its"
                      + " manual");
          assertThat(loop(instrument, replay)).isCloseTo(4.0, within(1e-9));
        });
  }

  @Test
  void aLateReplyNeverPassesForTheNext() throws InstrumentException {
    Replay.atEveryChunkSize(
        "line-late",
        replay -> {
          LineInstrument source = source(replay);
          assertThat(failure(() -> loop(source, replay)).kind()).isEqualTo(Kind.NO_REPLY);
          assertThat(loop(source, replay)).isCloseTo(12.003, within(1e-9));
        });
  }

  @Test
  void aCutLineIsNoReplyAndItsPartIsShown() throws InstrumentException {
    Replay.atEveryChunkSize(
        "line-cut",
        replay -> {
          LineInstrument source = source(replay);
          InstrumentException failure = failure(() -> loop(source, replay));
          assertThat(failure.kind()).isEqualTo(Kind.NO_REPLY);
          assertThat(failure).hasMessageContaining("part of a line").hasMessageContaining("12.00");
        });
  }

  /** Handed over byte by byte the second line is still on its way when the first one is whole. */
  @Test
  void twoLinesAreOneTooMany() throws InstrumentException {
    Replay replay = Replay.of("line-two-lines", 80);
    InstrumentException failure = failure(() -> loop(source(replay), replay));
    assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
    assertThat(failure).hasMessageContaining("more than one line came");
    replay.assertUsedUp();
  }

  @Test
  void checkDigitsAreMadeAndChecked() throws InstrumentException {
    Replay.atEveryChunkSize(
        "line-checksum",
        replay -> {
          LineInstrument box = LineRig.instrument(LineRig.INPUT, replay.links(), replay.clock());
          var position = box.positionTransmitter().orElseThrow();
          assertThat(position.read(replay.inMillis(200)).value().percent())
              .isCloseTo((12.345 - 4.0) / 0.16, within(1e-9));
          InstrumentException failure = failure(() -> position.read(replay.inMillis(200)));
          assertThat(failure.kind()).isEqualTo(Kind.BAD_REPLY);
          assertThat(failure)
              .hasMessageContaining("its check digits are wrong: xor8")
              .hasMessageContaining("#A1*70 -> #A1 12346*61");
        });
  }

  @Test
  void aCommandWithoutAReplyIsListenedAfter() throws InstrumentException {
    Replay.atEveryChunkSize(
        "line-no-reply-command",
        replay -> {
          SignalSource source = mute(replay).signalSource().orElseThrow();
          source.apply(Current.ofMilliamps(12.0), replay.inMillis(500));
          InstrumentException refused =
              failure(() -> source.apply(Current.ofMilliamps(13.0), replay.inMillis(500)));
          assertThat(refused.kind()).isEqualTo(Kind.REFUSED);
          assertThat(refused).hasMessageContaining("SET 13.000 -> ERR 7");
          InstrumentException bad =
              failure(() -> source.apply(Current.ofMilliamps(14.0), replay.inMillis(500)));
          assertThat(bad.kind()).isEqualTo(Kind.BAD_REPLY);
          assertThat(bad).hasMessageContaining("SET 14.000 -> HELLO");
        });
  }

  @Test
  void aSourceWithoutAnOffCannotOpenTheLoop() throws InstrumentException {
    Replay.atEveryChunkSize(
        "line-nothing",
        replay -> {
          SignalSource source = mute(replay).signalSource().orElseThrow();
          assertThat(source.opensLoop()).isFalse();
          InstrumentException failure = failure(() -> source.release(replay.inMillis(200)));
          assertThat(failure.kind()).isEqualTo(Kind.REFUSED);
          assertThat(failure).hasMessageContaining("no command that opens the loop");
        });
  }

  /** A source that answers to questions only. */
  private static LineInstrument mute(Replay replay) {
    LineTalk talk =
        new LineTalk(
            new TextManner("\n", "\n", 30_000_000L),
            Seal.NONE,
            List.of(Pattern.compile("^ERR (?<code>\\d+)")),
            List.of(),
            Optional.empty());
    LineWords words =
        new LineWords(
            talk,
            Optional.empty(),
            Optional.of(
                new LineWords.Source(
                    new Template("SET ", "mA", "%.3f", ""),
                    LineWords.Scale.ONE,
                    Optional.empty(),
                    Optional.empty())),
            Map.of(
                Role.SIGNAL_SOURCE,
                new LineWords.Value(
                    new LineWords.Question("GET", Pattern.compile("(?<value>.+)")),
                    LineWords.Scale.ONE)),
            Optional.empty(),
            Optional.empty());
    Channel channel =
        new Channel(
            "mA",
            new Accuracy(0, 0, 0, 0.002),
            0.001,
            OptionalDouble.of(0.0),
            OptionalDouble.of(24.0));
    return new LineInstrument(
        "mute source",
        new TextLine(replay.links(), Replay.ENDPOINT, replay.clock()),
        words,
        Map.of(Role.SIGNAL_SOURCE, channel),
        SignalRange.FOUR_TO_TWENTY);
  }
}

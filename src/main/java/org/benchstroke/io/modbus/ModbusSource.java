package org.benchstroke.io.modbus;

import java.util.List;
import java.util.Optional;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.InstrumentException.Kind;
import org.benchstroke.io.instrument.Reading;
import org.benchstroke.io.instrument.SignalSource;

/**
 * A current in a holding register, and maybe a coil that switches the output. The current is set
 * before the output is switched on. The runner's thread owns it.
 */
final class ModbusSource implements SignalSource {
  private final ModbusUnit unit;
  private final Register register;
  private final SourceWiring wiring;
  private final Channel channel;
  private final Optional<ModbusPulse> pulse;
  private final ModbusWriter writer;

  ModbusSource(
      ModbusUnit unit,
      Register register,
      SourceWiring wiring,
      Channel channel,
      Optional<ModbusPulse> pulse) {
    this.unit = unit;
    this.register = register;
    this.wiring = wiring;
    this.channel = channel;
    this.pulse = pulse;
    this.writer = new ModbusWriter(unit);
  }

  @Override
  public Current lowest() {
    return Current.ofMilliamps(channel.low().orElseThrow());
  }

  @Override
  public Current highest() {
    return Current.ofMilliamps(channel.high().orElseThrow());
  }

  @Override
  public boolean opensLoop() {
    return wiring.output().isPresent();
  }

  @Override
  public Reading<Current> apply(Current current, Deadline deadline) throws InstrumentException {
    double wanted = current.milliamps();
    if (current.compareTo(lowest()) < 0 || current.compareTo(highest()) > 0) {
      throw refused(
          "set " + current, current + " is outside its range of " + lowest() + " to " + highest());
    }
    if (pulse.isPresent()) {
      pulse.get().beat(deadline);
    }
    ModbusRequest request =
        ModbusRequest.write(
            register.address(), Registers.bytes(register, wanted), wiring.several());
    ModbusWriter.Outcome written = writer.write(request, register, deadline);
    Image.Measurement back = written.image().measured(register);
    if (Math.abs(back.value() - wanted) > allowed()) {
      throw badReadBack(written, current, Current.ofMilliamps(back.value()));
    }
    long answered = written.answeredNanos();
    if (wiring.output().isPresent()) {
      answered = Math.max(answered, switchedOn(wiring.output().get(), answered, deadline));
    }
    return new Reading<>(
        Current.ofMilliamps(back.value()),
        back.doubtsAnd(written.doubts()),
        written.note() + back.raw(),
        written.askedNanos(),
        answered);
  }

  @Override
  public Optional<State> held(Deadline deadline) throws InstrumentException {
    Image image = new BlockReader(unit, List.of(register)).read(deadline);
    Current setting = Current.ofMilliamps(image.measured(register).value());
    boolean on = wiring.output().isEmpty() || outputOn(wiring.output().get(), deadline);
    return Optional.of(new State(setting, on));
  }

  @Override
  public void release(Deadline deadline) throws InstrumentException {
    if (wiring.output().isEmpty()) {
      throw refused(
          "open the loop",
          "the bench file names no output switch for it ([instrument.signal_source.output]), so it"
              + " can't open the loop");
    }
    CoilSwitch.set(unit, wiring.output().get(), false, deadline);
  }

  /** Returns when the output was known to be on. */
  private long switchedOn(Register output, long answeredNanos, Deadline deadline)
      throws InstrumentException {
    if (outputOn(output, deadline)) {
      return answeredNanos;
    }
    return CoilSwitch.set(unit, output, true, deadline);
  }

  private boolean outputOn(Register output, Deadline deadline) throws InstrumentException {
    return unit.ask(ModbusRequest.read(output.table(), output.address(), 1), deadline).bit(0);
  }

  /** One step of the channel, and what rounding to whole counts can do. */
  private double allowed() {
    double rounding = register.type().real() ? 0.0 : Math.abs(register.scale()) / 2.0;
    return Math.max(channel.resolution(), rounding) * (1.0 + 1e-9);
  }

  private InstrumentException badReadBack(
      ModbusWriter.Outcome written, Current wanted, Current found) {
    InstrumentException failure =
        written.other(
            unit,
            register,
            wanted
                + " was written to "
                + register.place()
                + ", but it reads "
                + found
                + "; allowed is a difference of "
                + Numbers.significant(allowed(), 2)
                + " mA");
    // A write that itself failed may not have been acted on at all.
    return written.failed().isPresent()
        ? failure
        : SignalSource.readBackOtherwise(failure, wanted, found);
  }

  private InstrumentException refused(String what, String detail) {
    return unit.failure(Kind.REFUSED, what + ": nothing was sent", detail);
  }
}

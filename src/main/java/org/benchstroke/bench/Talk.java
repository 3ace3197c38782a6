package org.benchstroke.bench;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.line.LineWords;
import org.benchstroke.io.modbus.KeepAlive;
import org.benchstroke.io.modbus.Register;
import org.benchstroke.io.modbus.SourceWiring;
import org.benchstroke.io.scpi.ScpiHabits;

/** How an instrument is asked, with what must be known of it for that. Immutable. */
public sealed interface Talk {
  /** The language by its key in bench files. */
  InstrumentSpec.Language language();

  /**
   * Over SCPI.
   *
   * @param habits in what it differs from others that speak it
   * @param alternatingSupply whether the voltage that it measures as a supply meter alternates
   */
  record Scpi(ScpiHabits habits, boolean alternatingSupply) implements Talk {
    /** As most do. */
    public static final Scpi USUAL = new Scpi(ScpiHabits.USUAL, false);

    @Override
    public InstrumentSpec.Language language() {
      return InstrumentSpec.Language.SCPI;
    }
  }

  /**
   * By the registers of a Modbus instrument.
   *
   * @param language Modbus TCP or RTU
   * @param unitId its address, 0..255 (1..247 on a line)
   * @param registers the value of each role that reads or switches one
   * @param switches the inputs that switches are wired to
   * @param serialNumber where it keeps its serial number, if anywhere
   * @param source how the signal source is written, if it plays one
   * @param keepAlive what its watchdog wants to hear, if it has one
   */
  record Modbus(
      InstrumentSpec.Language language,
      int unitId,
      Map<Role, Register> registers,
      Map<LimitSwitch, Register> switches,
      Optional<Register> serialNumber,
      SourceWiring source,
      Optional<KeepAlive> keepAlive)
      implements Talk {
    public Modbus {
      if (!language.modbus()) {
        throw new IllegalArgumentException(language.key() + " has no registers");
      }
      registers = InstrumentSpec.unmodifiable(Role.class, registers);
      switches = InstrumentSpec.unmodifiable(LimitSwitch.class, switches);
    }
  }

  /** Word for word over a line. */
  record Line(LineWords words) implements Talk {
    @Override
    public InstrumentSpec.Language language() {
      return InstrumentSpec.Language.LINE;
    }
  }

  /**
   * Through a person, who reads it and types what it shows.
   *
   * @param readingScatter the standard deviation of one reading by eye, in the channel's unit
   * @param lookedAt the switches that the person looks at
   */
  record TypedIn(double readingScatter, List<LimitSwitch> lookedAt) implements Talk {
    public TypedIn {
      lookedAt = List.copyOf(lookedAt);
    }

    @Override
    public InstrumentSpec.Language language() {
      return InstrumentSpec.Language.TYPED_IN;
    }
  }
}

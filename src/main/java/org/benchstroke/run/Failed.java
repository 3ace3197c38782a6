package org.benchstroke.run;

import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.record.Event;
import org.benchstroke.record.RunFault;

/** An exchange that failed, as it stands in the record. Stateless. */
public final class Failed {
  private Failed() {}

  /** As an event. */
  public static Event.Faulted exchange(InstrumentException e) {
    return new Event.Faulted(fault(e.kind()), e.instrument(), e.getMessage());
  }

  private static RunFault fault(InstrumentException.Kind kind) {
    return switch (kind) {
      case NO_REPLY -> RunFault.NO_REPLY;
      case PORT_GONE -> RunFault.PORT_GONE;
      case BAD_REPLY -> RunFault.BAD_REPLY;
      case BEHIND_GATEWAY -> RunFault.BEHIND_GATEWAY;
      case REFUSED -> RunFault.REFUSED;
      case NO_VALUE -> RunFault.NO_VALUE;
      case NOT_SET -> RunFault.NOT_SET;
      case FROZEN -> RunFault.FROZEN_VALUE;
    };
  }
}

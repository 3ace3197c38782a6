package org.benchstroke.simulator;

import java.util.ArrayDeque;
import java.util.Deque;

/** Error queue and status registers of IEEE 488.2 clause 11 and SCPI-1999 volume 1, 21.8. */
final class ScpiStatus {
  private static final int QUEUE_LENGTH = 16;
  private static final int POWER_ON = 0x80;
  private static final int OPERATION_COMPLETE = 0x01;
  private static final int ERROR_QUEUE = 0x04;
  private static final int MESSAGE_AVAILABLE = 0x10;
  private static final int EVENT_SUMMARY = 0x20;
  private static final int MASTER_SUMMARY = 0x40;

  private final Deque<String> errors = new ArrayDeque<>();
  private int events = POWER_ON;
  private int eventEnable;
  private int serviceEnable;

  void add(ScpiError.Code code) {
    events |= code.eventBit();
    if (errors.size() < QUEUE_LENGTH) {
      errors.addLast(code.entry());
    } else {
      errors.removeLast();
      errors.addLast(ScpiError.Code.QUEUE_OVERFLOW.entry());
      events |= ScpiError.Code.QUEUE_OVERFLOW.eventBit();
    }
  }

  /** The oldest error, which leaves the queue. */
  String nextError() {
    return errors.isEmpty() ? "0,\"No error\"" : errors.removeFirst();
  }

  void clear() {
    errors.clear();
    events = 0;
  }

  void operationComplete() {
    events |= OPERATION_COMPLETE;
  }

  /** The event register, which reading clears. */
  int readEvents() {
    int read = events;
    events = 0;
    return read;
  }

  int statusByte(boolean messageAvailable) {
    int status = errors.isEmpty() ? 0 : ERROR_QUEUE;
    status |= messageAvailable ? MESSAGE_AVAILABLE : 0;
    status |= (events & eventEnable) != 0 ? EVENT_SUMMARY : 0;
    return status | ((status & serviceEnable) != 0 ? MASTER_SUMMARY : 0);
  }

  int eventEnable() {
    return eventEnable;
  }

  void eventEnable(int mask) {
    eventEnable = mask;
  }

  int serviceEnable() {
    return serviceEnable;
  }

  /** Bit 6 can't ask for itself (IEEE 488.2 10.34). */
  void serviceEnable(int mask) {
    serviceEnable = mask & ~MASTER_SUMMARY;
  }
}

package org.benchstroke.io.modbus;

import java.util.ArrayList;
import java.util.List;

/**
 * The requests of a line that have had no reply yet, in the order in which they were sent. A unit
 * answers in order, so that a reply to one shows that none to those before it can still come. One
 * thread.
 */
final class OwedReplies {
  /** Nobody answers so many requests at once after a silence; the oldest is then forgotten. */
  private static final int MOST = 16;

  private final List<Debt> owed = new ArrayList<>();

  private record Debt(int unit, ModbusRequest request) {}

  void sent(int unit, ModbusRequest request) {
    if (owed.size() == MOST) {
      owed.remove(0);
    }
    owed.add(new Debt(unit, request));
  }

  /** A reply came that looks like one to the request: it may be the first such that is owed. */
  void came(int unit, ModbusRequest request) {
    if (owed.size() == 1 && looksLike(owed.get(0), unit, request)) {
      owed.clear();
      return;
    }
    List<ModbusRequest> theirs = of(unit);
    int settled = 0;
    while (settled < theirs.size() && !theirs.get(settled).replyLooksLike(request)) {
      settled++;
    }
    if (settled < theirs.size()) {
      owed.removeIf(each -> each.unit() == unit);
      theirs.subList(settled + 1, theirs.size()).forEach(left -> sent(unit, left));
    }
  }

  boolean any() {
    return !owed.isEmpty();
  }

  /** Whether a reply that is owed could pass for one to the request. */
  boolean couldPassFor(int unit, ModbusRequest request) {
    for (Debt each : owed) {
      if (looksLike(each, unit, request)) {
        return true;
      }
    }
    return false;
  }

  private static boolean looksLike(Debt each, int unit, ModbusRequest request) {
    return each.unit() == unit && each.request().replyLooksLike(request);
  }

  List<ModbusRequest> of(int unit) {
    if (owed.isEmpty()) {
      return List.of();
    }
    return owed.stream().filter(each -> each.unit() == unit).map(Debt::request).toList();
  }
}

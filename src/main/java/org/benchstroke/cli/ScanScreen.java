package org.benchstroke.cli;

import java.util.List;
import java.util.Locale;
import org.benchstroke.commission.ModbusScan;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.modbus.UnitIdCheck;

/** Shows the scan: what answered stays, the progress is one line on a terminal. */
final class ScanScreen {
  /** More do not stand on one line: 32 unit loads (TIA-485). */
  private static final int MOST_DEVICES = 32;

  private static final int PLAIN_EVERY = 50;

  private final Shown out;
  private final boolean live;

  ScanScreen(Shown out, boolean live) {
    this.out = out;
    this.live = live;
  }

  void asked(ModbusScan.Asked asked) {
    UnitIdCheck.Answer answer = asked.answer();
    if (answer.proves() || answer.reply() == UnitIdCheck.Reply.UNSOUND) {
      print(
          String.format(
              Locale.ROOT,
              "  unit id %3d  %-14s %s",
              asked.unitId(),
              word(answer),
              answer.words()));
    }
    String left =
        asked.left()
            + " unit ids left, at most "
            + Numbers.fixed(asked.longestSecondsLeft(), 0)
            + " s";
    if (live) {
      out.control(Shown.Control.CLEAR_LINE);
      out.print(asked.left() == 0 ? "" : "  " + left);
    } else if (asked.left() > 0 && asked.left() % PLAIN_EVERY == 0) {
      out.println("  " + left);
    }
    out.flush();
  }

  private static String word(UnitIdCheck.Answer answer) {
    return switch (answer.reply()) {
      case VALUE, EXCEPTION -> "a device";
      default -> "not sound";
    };
  }

  private void print(String line) {
    if (live) {
      out.control(Shown.Control.CLEAR_LINE);
    }
    out.println(line);
  }

  /** Tells the sum; whether any device answered. */
  boolean tellEnd(List<ModbusScan.Asked> all) {
    long devices = all.stream().filter(each -> each.answer().proves()).count();
    long gateway = count(all, UnitIdCheck.Reply.GATEWAY);
    long unsound = count(all, UnitIdCheck.Reply.UNSOUND);
    out.println(devices + " of " + all.size() + " unit ids answered");
    if (devices > 0) {
      out.println(
          "  a scan can't tell what they are: a signal source among them may be live, and is left"
              + " as it is; keep hands clear; probe, with a bench file, says what it is set to");
    }
    if (gateway > 0) {
      out.println(
          "  for "
              + gateway
              + " a gateway answered that nobody is there; its exception proves no device");
    }
    if (unsound > 0) {
      out.println("  unsound replies: two devices with one unit id, wrong line settings, or noise");
    }
    if (devices == all.size() && all.size() > 2) {
      out.println(
          all.size() > MOST_DEVICES
              ? "  every unit id answered: this is one device that takes any unit id, as many on"
                  + " Modbus TCP do"
              : "  every unit id that was asked answered: that many devices, or one that takes any"
                  + " unit id, as many on Modbus TCP do; ask more of them (--to) to find out");
    }
    if (devices == 0 && gateway == 0) {
      out.println(
          "  nobody answered: check power, wiring and settings, TCP or RTU, and try a longer"
              + " --timeout-ms");
    }
    out.flush();
    return devices > 0;
  }

  private static long count(List<ModbusScan.Asked> all, UnitIdCheck.Reply reply) {
    return all.stream().filter(each -> each.answer().reply() == reply).count();
  }
}

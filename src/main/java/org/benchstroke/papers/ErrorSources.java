package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.bench.Mounting;
import org.benchstroke.core.quantity.Accuracy;
import org.benchstroke.core.quantity.CertifiedPoints;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.Channel;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Block.Cell;

/** What each instrument brings into U, and by whose word: certificate or data sheet. Stateless. */
final class ErrorSources {
  private static final String NOT_STATED = "not stated";

  private ErrorSources() {}

  static Block grid(JudgedRun run) {
    List<List<Cell>> rows = new ArrayList<>();
    for (InstrumentSpec instrument : run.bench().instruments()) {
      instrument.channels().forEach((role, channel) -> rows.add(row(instrument, role, channel)));
    }
    return new Block.Grid(
        "What counts in U for each of them; what is not stated is not in it",
        List.of("Role", "Error", "Temperature", "Drift since the calibration"),
        rows);
  }

  private static List<Cell> row(InstrumentSpec instrument, Role role, Channel channel) {
    return List.of(
        Cell.noted(role.key(), instrument.name()),
        Cell.noted(error(channel), role == Role.ANGLE_REFERENCE ? mounting(instrument) : ""),
        Cell.text(temperature(instrument, role, channel)),
        Cell.text(drift(channel)));
  }

  private static String error(Channel channel) {
    return channel
        .certified()
        .map(c -> certificate(c, unit(channel)))
        .orElseGet(() -> "data sheet: ±" + sheet(channel) + ", no correction");
  }

  private static String certificate(CertifiedPoints points, String unit) {
    return "certificate: corrected by its "
        + points.points().size()
        + " points from "
        + Numbers.plain(points.first().at())
        + " to "
        + Numbers.plain(points.last().at())
        + unit
        + ", with its U";
  }

  private static String sheet(Channel channel) {
    Accuracy a = channel.accuracy();
    List<String> terms = new ArrayList<>();
    if (a.percentOfReading() > 0.0) {
      terms.add(Numbers.plain(a.percentOfReading()) + " % of reading");
    }
    if (a.percentOfRange() > 0.0) {
      terms.add(Numbers.plain(a.percentOfRange()) + " % of range");
    }
    if (a.absolute() > 0.0 || terms.isEmpty()) {
      terms.add(Numbers.plain(a.absolute()) + unit(channel));
    }
    return terms.size() == 1 ? terms.get(0) : "(" + String.join(" + ", terms) + ")";
  }

  private static String unit(Channel channel) {
    return channel.unit().equals("deg") ? "°" : " " + channel.unit();
  }

  static String mounting(InstrumentSpec instrument) {
    Optional<Mounting> stated = instrument.mounting();
    return stated.isEmpty()
        ? "mounting not stated: not in U"
        : "mounting: eccentricity "
            + Numbers.plain(stated.get().eccentricityMillimetres())
            + " mm at "
            + Numbers.plain(stated.get().radiusMillimetres())
            + " mm (±"
            + Numbers.significant(stated.get().eccentricityDegrees(), 2)
            + "°), zero ±"
            + Numbers.plain(stated.get().zeroDegrees())
            + "°, coupling ±"
            + Numbers.plain(stated.get().couplingDegrees())
            + "°";
  }

  private static String temperature(InstrumentSpec instrument, Role role, Channel channel) {
    if (channel.perKelvin().isPresent()) {
      return "its coefficient for each kelvin outside";
    }
    return instrument.holds(role).isPresent() ? "the bench is within" : NOT_STATED;
  }

  private static String drift(Channel channel) {
    return channel.perYear().isPresent() ? "as stated, for the days since" : NOT_STATED;
  }

  /** Whose word counts, as other programs read it. */
  static Map<String, String> keys(InstrumentSpec instrument) {
    Map<String, String> keys = new LinkedHashMap<>();
    instrument
        .channels()
        .forEach(
            (role, c) ->
                keys.put(role.key(), c.certified().isPresent() ? "certificate" : "data sheet"));
    return keys;
  }
}

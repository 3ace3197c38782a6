package org.benchstroke.web.setup;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.papers.Json;
import org.benchstroke.setup.Edge;
import org.benchstroke.setup.Live;
import org.benchstroke.setup.SetUpState;

/** What goes live to a page of a set-up. Stateless. */
final class SetUpJson {
  private SetUpJson() {}

  static String text(SetUpState state, double travelDegrees) {
    Live live = state.live();
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("number", state.number());
    told.put("ended", state.ended().isPresent());
    told.put("done", state.allowed().stream().map(Enum::name).sorted().toList());
    told.put("travel", travelDegrees);
    number(told, "degrees", live.degrees());
    number(told, "percent", live.percent());
    number(told, "target", live.targetDegrees());
    told.put("tolerance", live.toleranceDegrees());
    live.made().ifPresent(made -> told.put("made", made));
    live.hint().ifPresent(hint -> told.put("hint", hint.words()));
    edge(told, "trip", live.trip());
    edge(told, "reset", live.reset());
    told.put("changes", live.changes());
    told.put("fault", live.fault());
    live.calibration().ifPresent(c -> told.put("calibration", calibration(c)));
    return Json.line(told);
  }

  private static void number(Map<String, Object> told, String key, OptionalDouble value) {
    value.ifPresent(v -> told.put(key, v));
  }

  private static void edge(Map<String, Object> told, String key, Optional<Edge> edge) {
    edge.ifPresent(e -> told.put(key, Map.of("at", e.degrees(), "within", e.expandedDegrees())));
  }

  private static String calibration(Live.Calibrating c) {
    String usual =
        c.usualSeconds() > 0 ? " of some " + Numbers.fixed(c.usualSeconds(), 0) + " s" : " s";
    String ends =
        c.lowest().isPresent() && c.highest().isPresent()
            ? ", between "
                + Numbers.minusSigns(Numbers.fixed(c.lowest().getAsDouble(), 1))
                + " and "
                + Numbers.minusSigns(Numbers.fixed(c.highest().getAsDouble(), 1))
                + " "
                + c.unit()
            : "";
    return Numbers.fixed(c.seconds(), 0) + usual + ": it " + goes(c.way()) + ends;
  }

  private static String goes(String way) {
    return switch (way) {
      case "closing" -> "closes";
      case "opening" -> "opens";
      default -> "stands";
    };
  }
}

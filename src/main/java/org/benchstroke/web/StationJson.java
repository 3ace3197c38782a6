package org.benchstroke.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.app.stations.Asked;
import org.benchstroke.app.stations.Driver;
import org.benchstroke.app.stations.Ended;
import org.benchstroke.app.stations.LeftBehind;
import org.benchstroke.app.stations.Place;
import org.benchstroke.app.stations.Point;
import org.benchstroke.app.stations.Running;
import org.benchstroke.app.stations.Seen;
import org.benchstroke.app.stations.Station;
import org.benchstroke.app.stations.TestMark;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.io.instrument.LimitSwitch;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.run.DisplayQuestion;
import org.benchstroke.run.Echo;

/** A station as the scripts of the pages read it. Stateless. */
final class StationJson {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private StationJson() {}

  /** What a tile shows. */
  static ObjectNode tile(Station station, Seen seen) {
    ObjectNode node = MAPPER.createObjectNode();
    Running running = seen.running();
    node.put("letter", station.place().letter());
    node.put("stage", seen.stage().name().toLowerCase(Locale.ROOT));
    node.put("state", Numbers.minusSigns(seen.state()));
    node.put("needs", seen.needsSomebody());
    node.put("holder", seen.holder().map(Driver::name).orElse(""));
    node.put("serial", seen.job().map(j -> j.sheet().serial()).orElse(""));
    node.put("order", seen.job().map(j -> j.sheet().order()).orElse(""));
    node.put("output", running.output().name().toLowerCase(Locale.ROOT));
    node.put("outputWords", running.output().words());
    node.put("outputDetail", Numbers.minusSigns(running.outputDetail()));
    put(node, "setpoint", running.setpoint());
    put(node, "position", running.position());
    put(node, "band", running.bandPercent());
    node.put("left", running.secondsLeft() / pace(station));
    ArrayNode readings = node.putArray("readings");
    for (LeftBehind each : running.readings()) {
      readings
          .addArray()
          .add(each.setpointPercent())
          .add(rounded(each.percent()))
          .add(each.upward());
    }
    seen.ended()
        .ifPresent(end -> node.put("verdict", verdict(end)).put("verdictShape", verdictShape(end)));
    return node;
  }

  private static String verdict(Ended end) {
    return end.aids().map(a -> ReportPages.shown(a.run()).ofUnit()).orElse("no result");
  }

  private static String verdictShape(Ended end) {
    return Shapes.ofWord(
        Optional.of(end.aids().map(a -> ReportPages.shown(a.run())).orElse(Word.NO_RESULT)));
  }

  /** What the station's own page shows. */
  static ObjectNode whole(Station station, Seen seen, String screen) {
    ObjectNode node = tile(station, seen);
    Running running = seen.running();
    node.put("mine", seen.holder().filter(h -> h.screen().equals(screen)).isPresent());
    node.put("test", running.test());
    put(node, "stem", running.stemDegrees());
    put(node, "loop", running.loopMilliamps());
    node.put("here", running.secondsHere() / pace(station));
    node.put("soFar", running.soFar().orElse(""));
    node.put("beyond", running.beyond());
    node.put("stopping", seen.stopping());
    node.put("count", seen.countDown().orElse(0));
    ArrayNode tests = node.putArray("tests");
    for (TestMark each : running.tests()) {
      tests
          .addObject()
          .put("name", each.name())
          .put("mark", each.mark().name().toLowerCase(Locale.ROOT).replace('_', '-'))
          .put("shape", each.mark().shape())
          .put("word", each.mark().word())
          .put("attempt", each.attempt());
    }
    ArrayNode lamps = node.putArray("switches");
    for (LimitSwitch each : LimitSwitch.values()) {
      if (running.switches().containsKey(each.key())) {
        lamps.addArray().add(each.key()).add(running.switches().get(each.key()));
      }
    }
    ArrayNode said = node.putArray("said");
    running.said().forEach(each -> said.add(Numbers.minusSigns(each)));
    seen.asked().ifPresent(asked -> node.set("asked", asked(asked, station)));
    return node;
  }

  private static ObjectNode asked(Asked asked, Station station) {
    QuestionWords words = QuestionWords.of(asked.question());
    ObjectNode node = MAPPER.createObjectNode();
    node.put("id", asked.id());
    node.put("kind", asked.question().id());
    node.put("shown", asked.shown());
    node.put("motion", asked.motion());
    node.put("hold", station.manners().holdMillis());
    node.put("title", words.title());
    node.put("text", words.text());
    node.put("key", words.key());
    node.put("picture", words.picture());
    if (asked.question() instanceof DisplayQuestion display) {
      node.put("unit", display.unit());
      node.put("allowed", display.allowed());
    }
    ArrayNode echo = node.putArray("echo");
    for (Echo.Line line : asked.question().shownWith().map(Echo::lines).orElse(List.of())) {
      echo.addArray().add(line.name()).add(Numbers.minusSigns(line.value()));
    }
    return node;
  }

  /** Samples, each as seconds, setpoint and position. */
  static ObjectNode points(Station.Fresh fresh) {
    ObjectNode node = MAPPER.createObjectNode();
    node.put("whole", fresh.whole());
    ArrayNode points = node.putArray("points");
    for (Point each : fresh.points()) {
      ArrayNode point = points.addArray().add(rounded(each.seconds()));
      if (Double.isFinite(each.setpoint())) {
        point.add(rounded(each.setpoint()));
      } else {
        point.addNull();
      }
      point.add(rounded(each.position()));
    }
    return node;
  }

  static String text(Object node) {
    try {
      return MAPPER.writeValueAsString(node);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a tree can always be written", e);
    }
  }

  static ObjectMapper mapper() {
    return MAPPER;
  }

  private static double pace(Station station) {
    return station.place().equipment() instanceof Place.Simulated s ? s.pace().orElse(1.0) : 1.0;
  }

  private static void put(ObjectNode node, String name, OptionalDouble value) {
    if (value.isPresent()) {
      node.put(name, rounded(value.getAsDouble()));
    } else {
      node.putNull(name);
    }
  }

  /** A thousandth is finer than any pixel. */
  private static double rounded(double value) {
    return Math.round(value * 1000.0) / 1000.0;
  }
}

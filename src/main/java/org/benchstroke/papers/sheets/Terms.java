package org.benchstroke.papers.sheets;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.benchstroke.core.analysis.Direction;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Location;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Truth;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.Figures;
import org.benchstroke.unit.DecisionRule;
import org.benchstroke.unit.Limit;
import org.benchstroke.unit.MeasureKind;

/**
 * Measures, places, limits and figures in a language, as they are set on paper. Immutable.
 *
 * @param words of the language
 */
record Terms(Words words) {
  private static final String NO_BREAK = "\u00a0";
  private static final String MINUS = "\u2212";
  private static final DateTimeFormatter MINUTE =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm '(UTC'xxx')'", Locale.ROOT);

  /** A hyphen before a digit that no letter, digit or point stands before. */
  private static final Pattern NEGATIVE = Pattern.compile("(?<![\\p{L}\\p{N}.,)_-])-(?=\\d)");

  private static final Pattern BEFORE_UNIT =
      Pattern.compile(
          "(?<=\\d) (?=(?:%(?:/s)?|°C?|s|ms|mA|V|K|Ω|mm|min|h|/min|/h)(?![\\p{L}\\p{N}]))");

  /** A text with figures in it: true minus signs, and no line ends between figure and unit. */
  static String set(String text) {
    String signed =
        NEGATIVE.matcher(text).replaceAll(MINUS).replace(" °", "°").replace("°C", " °C");
    return BEFORE_UNIT.matcher(signed).replaceAll(NO_BREAK).replace("± ", "±" + NO_BREAK);
  }

  String title(Measure measure) {
    return words.of("measure." + measure.kind().name());
  }

  String title(MeasureKind kind) {
    return words.of("measure." + kind.name());
  }

  String truth(Truth truth) {
    return words.of("truth." + truth.name());
  }

  /** Of a judgement; of none if there is no limit. */
  String word(Optional<Word> word) {
    return word.map(this::word).orElseGet(() -> words.of("word.none"));
  }

  String word(Word word) {
    return words.of("word." + word.name());
  }

  /** A shape before it: round passes, square fails, full is certain, empty is conditional. */
  String marked(Word word) {
    return shape(word) + NO_BREAK + word(word);
  }

  static String shape(Word word) {
    return switch (word) {
      case PASS -> "●";
      case CONDITIONAL_PASS -> "○";
      case CONDITIONAL_FAIL -> "□";
      case FAIL -> "■";
      case NO_RESULT -> "◇";
    };
  }

  String value(Measure measure) {
    return set(Figures.valueWithUnit(measure));
  }

  /** ± U, with the mark of what speaks of the readings alone. */
  String half(Judgement judgement) {
    String mark = Figures.ofReadings(judgement) ? NO_BREAK + Figures.READINGS_MARK : "";
    return set(Figures.half(judgement.measure())) + mark;
  }

  String k(Measure measure) {
    return Figures.coverageFactor(measure);
  }

  String limit(Limit limit) {
    String unit = " " + limit.measure().unit();
    if (limit.low().isEmpty()) {
      return set(words.of("limit.most", Numbers.plain(limit.high().getAsDouble()) + unit));
    }
    if (limit.high().isEmpty()) {
      return set(words.of("limit.least", Numbers.plain(limit.low().getAsDouble()) + unit));
    }
    double low = limit.low().getAsDouble();
    double high = limit.high().getAsDouble();
    return set(
        low == -high
            ? "±" + Numbers.plain(high) + unit
            : words.of("limit.range", Numbers.plain(low), Numbers.plain(high) + unit));
  }

  String rule(DecisionRule rule) {
    if (rule.width().isPresent()) {
      return words.of("rule.width", Numbers.plain(rule.width().getAsDouble()));
    }
    return rule.simpleAcceptance()
        ? words.of("rule.simple")
        : words.of(
            "rule.guard",
            rule.guardFactor() == 1.0 ? "U" : Numbers.plain(rule.guardFactor()) + NO_BREAK + "U");
  }

  /** Where a measure was taken, or how where it has no place; may be empty. */
  String place(Measure measure) {
    return measure.place() instanceof Location.Whole
        ? set(words.maybe("at." + measure.kind().name()).orElse(""))
        : set(placed(measure.place()));
  }

  private String placed(Location place) {
    if (place instanceof Location.Side side) {
      return percent(side.percent()) + " " + way(side.direction());
    } else if (place instanceof Location.Point point) {
      return percent(point.percent());
    } else if (place instanceof Location.Reading r) {
      String which = r.highest() ? "place.highest" : "place.lowest";
      String end =
          r.cycle() == 0
              ? words.of(which + "-other")
              : words.of("place.cycle", r.cycle()) + ", " + words.of(which);
      return percent(r.percent()) + " " + way(r.direction()) + ", " + end;
    } else if (place instanceof Location.StepOf step) {
      return percent(step.sizePercent()) + " " + way(step.direction());
    } else if (place instanceof Location.Way way) {
      return way(way.direction());
    } else if (place instanceof Location.FullStroke stroke) {
      return words.of(stroke.opening() ? "place.opening" : "place.closing");
    } else if (place instanceof Location.TravelEnd end) {
      return words.of(end.open() ? "place.open" : "place.closed");
    } else if (place instanceof Location.EndSwitches end) {
      return words.of(end.open() ? "place.open-end" : "place.closed-end");
    } else if (place instanceof Location.Held held) {
      return percent(held.percent())
          + (held.time() > 1 ? ", " + words.of("place.time", held.time()) : "");
    } else if (place instanceof Location.Between between) {
      String range = Numbers.upTo(between.from(), 3) + "–" + percent(between.to());
      return range + (between.cycle() > 0 ? ", " + words.of("place.cycle", between.cycle()) : "");
    } else if (place instanceof Location.OfSwitch of) {
      return words.of("switch." + of.which().name());
    } else if (place instanceof Location.Case named) {
      return words.maybe("case." + named.key().replace(' ', '-')).orElse(named.key());
    }
    return "";
  }

  private static String percent(double value) {
    return Numbers.upTo(value, 3) + " %";
  }

  private String way(Direction direction) {
    return words.of("way." + direction.name());
  }

  /** What an order is about; which of its kind is told as the procedure or the judge names it. */
  String what(AsOrdered order) {
    String subject = words.maybe("order." + order.subject().name()).orElse("");
    String which = words.maybe("which." + order.which().replace(' ', '-')).orElse(order.which());
    String join = subject.isEmpty() || which.isEmpty() ? "" : ": ";
    return set(subject + join + which);
  }

  String test(String name) {
    return words.maybe("named." + name.replace(' ', '-')).orElse(name);
  }

  /** Local time with its distance from UTC. */
  static String minute(Instant at, ZoneId zone) {
    return MINUTE.format(at.atZone(zone));
  }
}

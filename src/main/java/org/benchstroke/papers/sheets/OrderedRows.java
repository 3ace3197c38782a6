package org.benchstroke.papers.sheets;

import java.util.List;
import org.benchstroke.core.quantity.Characteristic;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.papers.sheets.Part.Fact;
import org.benchstroke.unit.UnitType;

/** What was ordered of a unit, as rows of a paper. Stateless. */
final class OrderedRows {
  private OrderedRows() {}

  static List<Fact> of(UnitType unit, Words words) {
    boolean reverse = unit.signal().spanMilliamps() < 0.0;
    return List.of(
        Fact.of(
            words.of("ordered.signal"),
            Terms.set(
                unit.signal() + ", " + words.of(reverse ? "ordered.reverse" : "ordered.direct"))),
        Fact.of(words.of("ordered.feedback"), Terms.set(unit.feedback().toString())),
        Fact.of(words.of("ordered.characteristic"), characteristic(unit, words)),
        Fact.of(
            words.of("ordered.travel"),
            Terms.set(
                words.of(
                    "ordered.travel-in",
                    Numbers.plain(unit.travelDegrees()),
                    Numbers.plain(unit.strokeSeconds())))),
        Fact.wide(words.of("ordered.loss"), loss(unit, words)),
        Fact.wide(words.of("ordered.limits"), words.of("ordered.limits-are")));
  }

  private static String characteristic(UnitType unit, Words words) {
    Characteristic c = unit.characteristic();
    if (c instanceof Characteristic.EqualPercentage equal) {
      return words.of("ordered.equal-percentage", Numbers.plain(equal.rangeability()));
    }
    return c instanceof Characteristic.Table table
        ? words.of("ordered.table", table.points().size())
        : words.of("ordered.linear");
  }

  private static String loss(UnitType unit, Words words) {
    UnitType.SignalLoss loss = unit.signalLoss();
    String high =
        loss.highMilliamps()
            .map(h -> words.of("ordered.loss-high", Numbers.plain(h.milliamps())))
            .orElse("");
    return Terms.set(
        words.of(
            "ordered.loss-is",
            words.of("fail." + loss.action().name()),
            Numbers.plain(loss.delaySeconds()),
            Numbers.plain(loss.holdsMilliamps().milliamps()),
            Numbers.plain(loss.lostMilliamps().milliamps()),
            high));
  }
}

package org.benchstroke.core.uncertainty;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Puts the inputs of a budget that have something in common together. Stateless. */
final class Tied {
  /** Sensitivities closer than this, relatively, are the same. */
  private static final double SAME = 1.0e-9;

  private Tied() {}

  /** Each input that is tied to others once, at the place of the first; all others as they are. */
  static List<Component> together(List<Component> components) {
    Map<List<Object>, List<Component>> groups = new LinkedHashMap<>();
    for (int i = 0; i < components.size(); i++) {
      Component c = components.get(i);
      boolean free = c.tie().kind() == Tie.Kind.NONE;
      Object id = free ? Integer.valueOf(i) : c.tie().of();
      groups.computeIfAbsent(List.of(c.tie().kind(), id), k -> new ArrayList<>()).add(c);
    }
    return groups.values().stream().map(g -> g.size() == 1 ? g.get(0) : one(g)).toList();
  }

  private static Component one(List<Component> group) {
    Component first = group.get(0);
    boolean alike =
        group.stream()
            .allMatch(
                c ->
                    c.unit().equals(first.unit())
                        && Math.abs(Math.abs(c.sensitivity()) - Math.abs(first.sensitivity()))
                            <= SAME * Math.abs(first.sensitivity()));
    // In the input's unit where that is the same for all, else in that of the measure.
    double sensitivity = alike ? Math.abs(first.sensitivity()) : 1.0;
    if (first.tie().kind() == Tie.Kind.ALIKE) {
      return alike(group);
    }
    double sum = 0.0;
    double squares = 0.0;
    for (Component c : group) {
      double each = alike ? c.standard() : c.contribution();
      sum += each;
      squares += each * each;
    }
    boolean bound = first.tie().kind() == Tie.Kind.ONE_INSTRUMENT;
    return new Component(
        name(group),
        first.evaluation(),
        bound ? sum : Math.sqrt(squares),
        sensitivity,
        first.degreesOfFreedom(),
        alike ? first.unit() : "",
        first.tie());
  }

  /** One error at several places: what its signs leave of it. */
  private static Component alike(List<Component> group) {
    Component first = group.get(0);
    double sum = group.stream().mapToDouble(c -> c.sensitivity() * c.standard()).sum();
    return new Component(
        name(group),
        first.evaluation(),
        Math.abs(sum),
        1.0,
        first.degreesOfFreedom(),
        "",
        first.tie());
  }

  private static String name(List<Component> group) {
    String words =
        group.stream().map(c -> c.tie().words()).distinct().collect(Collectors.joining(" and "));
    return words + ", " + group.size() + " together";
  }
}

package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Block.Cell;

/**
 * Where each method is described, and which standard it is in the manner of: a report names the
 * documents that its figures rest on (ISO/IEC 17025:2017 7.8.2.1 and 7.2.1, from memory).
 * Stateless.
 */
public final class Methods {
  /** The document that describes them, within the program's own. */
  public static final String DOCUMENT = "docs/explanation/measures.md";

  private static final String PRACTICE = "common practice, no source";

  /** By the name of the method, without its edition. */
  private static final Map<String, Method> ALL = all();

  /**
   * What is known of a method.
   *
   * @param section of the document, by its heading
   * @param source the standard whose definition or method it takes up, or that there is none
   */
  public record Method(String section, String source) {}

  private Methods() {}

  private static Map<String, Method> all() {
    Map<String, Method> all = new LinkedHashMap<>();
    String isa = "ANSI/ISA-51.1-1979 (R1993)";
    all.put("travel-error", of("Travel", "IEC 61298-2"));
    all.put("zero-error", new Method("Travel", PRACTICE));
    all.put("span-error", new Method("Travel", PRACTICE));
    all.put("hysteresis-plus-dead-band", of("Travel", isa));
    all.put("hysteresis", of("Travel", isa + ", IEC 61298-2"));
    all.put("hysteresis-plus-dead-band-means", new Method("Travel", PRACTICE));
    all.put("hysteresis-means", new Method("Travel", PRACTICE));
    all.put("linearity-independent", of("Travel", isa));
    all.put("linearity-terminal", of("Travel", isa));
    all.put("linearity-zero-based", of("Travel", isa));
    all.put("repeatability", of("Travel", isa));
    all.put("feedback-error", new Method("Travel", PRACTICE));
    all.put("quadrant", new Method("Travel", PRACTICE));
    all.put("stroke-time", new Method("Time", PRACTICE));
    all.put("stroke-asymmetry", new Method("Time", PRACTICE));
    all.put("feedback-noise", new Method("Time", PRACTICE));
    all.put("seat-lag", new Method("Time", PRACTICE));
    all.put("dead-band", of("Dead band and resolution", isa + ", IEC 61298-2"));
    all.put("resolution", of("Dead band and resolution", isa));
    all.put("start-and-stop", new Method("Dead band and resolution", PRACTICE));
    all.put("step-response", of("Step response", "IEV 351"));
    all.put("partial-stroke", new Method("Partial stroke", PRACTICE));
    all.put("duty", of("Duty", "ISO 22153 (classes of duty)"));
    all.put("endurance", new Method("Endurance", PRACTICE));
    all.put("ramp", new Method("Ramp", PRACTICE));
    all.put("hunting", new Method("Hunting", PRACTICE));
    all.put("supply", new Method("Supply", PRACTICE));
    all.put("switches", new Method("Switches", PRACTICE));
    all.put("power-loss", new Method("Loss of power", PRACTICE));
    all.put("action", new Method("As ordered", PRACTICE));
    all.put("setpoints", new Method("As ordered", PRACTICE));
    all.put("signal-loss", new Method("As ordered", PRACTICE));
    all.put(
        "recorded-by-hand", new Method("none: a figure by other means, as it was typed", PRACTICE));
    return all;
  }

  private static Method of(String section, String standard) {
    return new Method(section, "in the manner of " + standard + ", from memory; not claimed");
  }

  /** What is known of a method by its id, such as "travel-error/3"; empty if nothing is. */
  public static Optional<Method> of(String id) {
    return Optional.ofNullable(ALL.get(id.replaceFirst("/.*", "")));
  }

  /** The methods of a run, each with what it was used for. */
  static Section section(JudgedRun run) {
    Map<String, Set<String>> used = new LinkedHashMap<>();
    run.judgements().stream()
        .map(j -> j.measure())
        .filter(m -> m.value().isPresent())
        .forEach(m -> used(used, m.method()).add(m.kind().title()));
    run.orders().forEach(o -> used(used, o.method()).add(o.what()));
    List<List<Cell>> rows = new ArrayList<>();
    used.forEach((id, what) -> rows.add(row(id, what)));
    return Section.of(
        "Methods",
        new Block.Grid(
            "Each is described in "
                + DOCUMENT
                + " of the program; the number after the slash is its edition. No standard is"
                + " claimed to be followed as a whole.",
            List.of("Method", "Used for", "Section", "Standard"),
            rows),
        new Block.Paragraph("No method was used."));
  }

  private static Set<String> used(Map<String, Set<String>> used, String id) {
    return used.computeIfAbsent(id, key -> new LinkedHashSet<>());
  }

  private static List<Cell> row(String id, Set<String> what) {
    Optional<Method> method = of(id);
    return List.of(
        Cell.text(id),
        Cell.text(String.join(", ", what)),
        Cell.text(method.map(Method::section).orElse(Figures.NONE)),
        Cell.text(method.map(Method::source).orElse("not stated")));
  }
}

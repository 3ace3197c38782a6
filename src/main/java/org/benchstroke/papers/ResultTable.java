package org.benchstroke.papers;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.core.quantity.Visible;
import org.benchstroke.judge.AsOrdered;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Judgement;
import org.benchstroke.judge.Measure;
import org.benchstroke.judge.Word;

/**
 * The judged measures as a plain table for a terminal, at most 100 columns wide unless a text of
 * the record is longer; on a narrower terminal each measure has two lines. Words and symbols, no
 * colour. Stateless.
 */
public final class ResultTable {
  private static final int MOST_COLUMNS = 100;

  /** More of them would hide those that decide. */
  private static final int MOST_UNLIMITED = 12;

  /** One is often the cause of the others. */
  private static final int MOST_REASONS = 5;

  private static final String BY_FEEDBACK =
      "Positions are those of the unit's own feedback, where it doesn't say \"of the stem\".";

  private final StringBuilder out = new StringBuilder();
  private final JudgedRun run;
  private final int columns;

  private ResultTable(JudgedRun run, int columns) {
    this.run = run;
    this.columns = columns;
  }

  /**
   * The measures, what is as ordered, the findings and last the verdict; lines end in a line feed.
   *
   * @param columns of the terminal; more than 100 are not used
   */
  public static String text(JudgedRun run, int columns) {
    return new ResultTable(run, Math.min(MOST_COLUMNS, columns)).whole();
  }

  private String whole() {
    if (anythingFound()) {
      measures().print(out, columns);
      wrap(BY_FEEDBACK);
      if (shown().stream().anyMatch(Figures::ofReadings)) {
        wrap(Figures.READINGS_MARK + " " + Figures.OF_READINGS);
      }
      long left = unlimited().size();
      if (left > MOST_UNLIMITED) {
        wrap(left + " more measures have no limit and are not judged; the report shows them.");
      }
      if (!run.orders().isEmpty()) {
        out.append('\n');
        orders();
      }
    } else {
      wrap("No measure has a value.");
    }
    reasons().forEach((why, what) -> wrap("- No result for " + named(what) + ": " + why));
    run.sentences().forEach(finding -> wrap("- " + finding));
    JobFacts.customer(run).ifPresent(customer -> wrap("For " + customer + "."));
    JobFacts.statedAir(run).ifPresent(air -> wrap("At the bench: " + air + "."));
    SealWords.lines(run.record()).forEach(this::wrap);
    out.append('\n');
    verdict();
    return out.toString();
  }

  /** Why what has a limit has no result, each reason once, the first of them. */
  private Map<String, List<String>> reasons() {
    Map<String, List<String>> reasons = new LinkedHashMap<>();
    for (Judgement judgement : run.judgements()) {
      Measure measure = judgement.measure();
      String why = measure.note();
      boolean known = reasons.containsKey(why) || reasons.size() < MOST_REASONS;
      if (judgement.word().equals(Optional.of(Word.NO_RESULT)) && !why.isEmpty() && known) {
        reasons.computeIfAbsent(why, key -> new ArrayList<>()).add(name(measure));
      }
    }
    return reasons;
  }

  private static String named(List<String> what) {
    return what.get(0) + (what.size() == 1 ? "" : " and " + (what.size() - 1) + " more");
  }

  private static String name(Measure measure) {
    String place = measure.place().words();
    return measure.title() + (place.isEmpty() ? "" : ", " + place);
  }

  private boolean anythingFound() {
    return run.judgements().stream().anyMatch(j -> j.measure().value().isPresent())
        || run.orders().stream().anyMatch(o -> o.word() != Word.NO_RESULT);
  }

  /** Last, where it stays in sight; what limits it stands right above. */
  private void verdict() {
    if (run.simulated()) {
      wrap("! simulated, not a real unit: " + run.simulation());
    }
    if (run.imported().isPresent()) {
      wrap("! recorded elsewhere, not by this program: " + run.imported().get().file());
    }
    SealWords.warnings(run.record()).forEach(warning -> wrap("! " + warning));
    if (!run.complete()) {
      wrap("! incomplete: " + incomplete());
    }
    if (!run.stemProven()) {
      wrap("! stem not proven: feedback proves the controller, not the valve");
    }
    Word shown = ReportPages.shown(run);
    String word = shown.ofUnit().toUpperCase(Locale.ROOT);
    String whose = run.imported().isPresent() ? "READINGS " : "";
    wrap(symbol(Optional.of(shown)) + " " + whose + word + " – " + run.reason());
  }

  private String incomplete() {
    return run.record()
        .closed()
        .filter(closed -> !closed.how().equals("complete") && !closed.reason().isBlank())
        .map(closed -> "the run ended early: " + closed.reason())
        .orElse("the run is not whole and valid");
  }

  /** What was measured and has no limit. */
  private List<Judgement> unlimited() {
    return run.judgements().stream()
        .filter(j -> j.limit().isEmpty() && j.measure().value().isPresent())
        .toList();
  }

  /** What has a limit, and the rest if it is not too much. */
  private List<Judgement> shown() {
    List<Judgement> shown =
        new ArrayList<>(run.judgements().stream().filter(j -> j.limit().isPresent()).toList());
    List<Judgement> unlimited = unlimited();
    shown.addAll(unlimited.size() > MOST_UNLIMITED ? List.of() : unlimited);
    return shown;
  }

  private Grid measures() {
    Grid grid =
        new Grid(List.of("Measure", "Value", "± U", "Limit", "Result", "P"), Set.of(1, 2, 5));
    for (Judgement judgement : shown()) {
      Measure measure = judgement.measure();
      grid.add(
          List.of(
              name(measure),
              Figures.valueWithUnit(measure),
              Figures.half(measure)
                  + (Figures.ofReadings(judgement) ? " " + Figures.READINGS_MARK : ""),
              Figures.limit(judgement),
              symbol(judgement.word()) + " " + Figures.word(judgement.word()),
              Figures.probability(judgement.probability())));
    }
    return grid;
  }

  private void orders() {
    out.append("As ordered\n");
    Map<String, List<String>> without = new LinkedHashMap<>();
    for (AsOrdered order : run.orders()) {
      String found = order.found().isBlank() ? Figures.NONE : order.found();
      if (order.word() == Word.NO_RESULT) {
        without.computeIfAbsent(found, why -> new ArrayList<>()).add(order.what());
      } else {
        wrap(
            judged(order.word())
                + order.what()
                + " – ordered: "
                + order.ordered()
                + "; found: "
                + found);
      }
    }
    without.forEach(
        (why, what) -> wrap(judged(Word.NO_RESULT) + String.join("; ", what) + " – " + why));
  }

  private static String judged(Word word) {
    return symbol(Optional.of(word)).strip() + " " + word.text() + ": ";
  }

  /** Brackets mean conditional; told apart without colour. */
  static String symbol(Optional<Word> word) {
    if (word.isEmpty()) {
      return " · ";
    }
    return switch (word.get()) {
      case PASS -> " ✓ ";
      case CONDITIONAL_PASS -> "(✓)";
      case CONDITIONAL_FAIL -> "(✗)";
      case FAIL -> " ✗ ";
      case NO_RESULT -> " ? ";
    };
  }

  /** Breaks a sentence at blanks, but not before a per cent sign; later lines are indented. */
  private void wrap(String sentence) {
    int column = 0;
    for (String word : clean(sentence).strip().split(" +(?!%)", -1)) {
      if (column > 0 && column + 1 + length(word) > columns) {
        out.append("\n  ");
        column = 2;
      } else if (column > 0) {
        out.append(' ');
        column++;
      }
      out.append(word);
      column += length(word);
    }
    out.append('\n');
  }

  /** Texts of a record may hold control characters: a terminal must not obey them. */
  private static String clean(String text) {
    return Numbers.minusSigns(Visible.of(text.replaceAll("\\R", " ")));
  }

  private static int length(String text) {
    return text.codePointCount(0, text.length());
  }

  /** Rows of cells, padded to columns. */
  private static final class Grid {
    private final List<List<String>> rows = new ArrayList<>();
    private final Set<Integer> flushRight;

    Grid(List<String> headings, Set<Integer> flushRight) {
      this.flushRight = flushRight;
      rows.add(headings);
    }

    void add(List<String> row) {
      rows.add(row.stream().map(ResultTable::clean).toList());
    }

    void print(StringBuilder out, int columns) {
      if (columns >= MOST_COLUMNS) {
        int[] whole = widths();
        breakLonger(columns - (IntStream.of(whole).sum() - whole[0] + whole.length - 1));
      }
      int[] widths = widths();
      int cells = IntStream.of(widths).sum();
      int gap = cells + 2 * (widths.length - 1) <= columns ? 2 : 1;
      int whole = cells + gap * (widths.length - 1);
      if (whole > columns && columns < MOST_COLUMNS) {
        printStacked(out, widths, columns);
        return;
      }
      line(out, rows.get(0), widths, gap);
      out.append("─".repeat(Math.min(columns, whole))).append('\n');
      rows.subList(1, rows.size()).forEach(row -> line(out, row, widths, gap));
    }

    /** A name that would make the table too wide goes on in a second line, from a comma on. */
    private void breakLonger(int room) {
      for (int i = 0; i < rows.size(); i++) {
        String name = rows.get(i).get(0);
        int comma = name.indexOf(", ");
        if (length(name) > room && comma > 0) {
          List<String> broken = new ArrayList<>(rows.get(i));
          broken.set(0, name.substring(0, comma + 1) + "\n  " + name.substring(comma + 2));
          rows.set(i, broken);
        }
      }
    }

    /** What it is on a line of its own, and what is known of it below. */
    private void printStacked(StringBuilder out, int[] widths, int columns) {
      int[] below = widths.clone();
      below[0] = 1;
      for (List<String> row : rows) {
        out.append(row.get(0)).append('\n');
        List<String> rest = new ArrayList<>(row);
        rest.set(0, "");
        line(out, rest, below, 2);
        if (row == rows.get(0)) {
          out.append("─".repeat(columns)).append('\n');
        }
      }
    }

    private static int lastLine(String cell) {
      return length(cell.substring(cell.lastIndexOf('\n') + 1));
    }

    private int[] widths() {
      int[] widths = new int[rows.get(0).size()];
      for (List<String> row : rows) {
        for (int c = 0; c < widths.length; c++) {
          widths[c] = Math.max(widths[c], lastLine(row.get(c)));
        }
      }
      return widths;
    }

    private void line(StringBuilder out, List<String> row, int[] widths, int gap) {
      StringBuilder line = new StringBuilder();
      for (int c = 0; c < widths.length; c++) {
        String text = row.get(c);
        String pad = " ".repeat(widths[c] - lastLine(text));
        line.append(flushRight.contains(c) ? pad + text : text + pad).append(" ".repeat(gap));
      }
      out.append(line.toString().stripTrailing()).append('\n');
    }
  }
}

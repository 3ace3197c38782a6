package org.benchstroke.counts;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.aids.diagnosis.Evidence;
import org.benchstroke.aids.diagnosis.Likelihoods;
import org.benchstroke.aids.diagnosis.Likelihoods.Count;
import org.benchstroke.aids.diagnosis.Likelihoods.Kind;
import org.benchstroke.aids.diagnosis.Sign;
import org.benchstroke.counts.DrawnSets.Drawn;

/**
 * How often the diagnosis names the fault that was built in: drawn units of every cause, form and
 * size in the procedure <em>fault finding</em>. Some count the likelihoods, others are held out.
 * Writes the likelihoods that come with the program, and the tables of the page on the confusion
 * table.
 *
 * <p>Properties, given by {@code -Dbench.java}: {@code confusion.share} takes that part of all
 * units, {@code confusion.held} another part of those that are held out. {@code
 * confusion.resume=true} goes on where a count was stopped, and only of the same program; with
 * {@code confusion.only=known} it writes what that has so far. {@code confusion.only=held} counts
 * the held-out units by the likelihoods that come with the program.
 */
public final class ConfusionTable {
  private static final Path FOLDER = Path.of("target/confusion");
  private static final Path LIKELIHOODS =
      Path.of("src/main/resources/org/benchstroke/aids/diagnosis/likelihoods.csv");

  private static final Path PAGE = Path.of("docs/explanation/confusion.md");

  private ConfusionTable() {}

  /**
   * Counts; where fewer units are asked for than there are, only to show that they still can be:
   * then nothing of the program or its pages is written.
   *
   * @param scratch where what was seen is kept then
   */
  public static void run(Path scratch, int most) throws Exception {
    if (most < Integer.MAX_VALUE) {
      tried(new Counted(scratch.resolve("seen.csv"), false), most);
    } else {
      all();
    }
  }

  private static void tried(Counted counted, int most) throws Exception {
    counts(counted.all(DrawnSets.counting(0.0).subList(0, most)));
    List<Drawn> held = DrawnSets.heldOut(0.0).subList(0, most);
    new ConfusionPage(counted.all(held), Likelihoods.builtIn()).text();
    between(Files.readString(PAGE), "counted", "");
    between(Files.readString(PAGE), "drawn", ConfusionPage.ranges());
  }

  private static void all() throws Exception {
    double share = Double.parseDouble(System.getProperty("confusion.share", "1"));
    double held = Double.parseDouble(System.getProperty("confusion.held", "" + share));
    boolean heldOnly = System.getProperty("confusion.only", "").equals("held");
    Files.createDirectories(FOLDER);
    Counted counted =
        new Counted(FOLDER.resolve("seen.csv"), Boolean.getBoolean("confusion.resume"));
    boolean known = System.getProperty("confusion.only", "").equals("known");
    UnaryOperator<List<Drawn>> chosen = known ? counted::known : UnaryOperator.identity();
    Likelihoods likelihoods = Likelihoods.builtIn();
    if (!heldOnly) {
      Map<Kind, Map<Sign, Count>> counts =
          counts(counted.all(chosen.apply(DrawnSets.counting(share))));
      Files.writeString(LIKELIHOODS, csv(counts));
      likelihoods = Likelihoods.of(counts);
    }
    String table =
        new ConfusionPage(counted.all(chosen.apply(DrawnSets.heldOut(held))), likelihoods).text();
    String page = between(Files.readString(PAGE), "counted", table);
    Files.writeString(PAGE, between(page, "drawn", ConfusionPage.ranges()));
    System.out.println(table);
  }

  /** Puts a text in the place of what stands between two marks of a page. */
  private static String between(String page, String mark, String text) {
    String begin = "<!-- " + mark + " -->\n";
    String end = "<!-- end of what was " + mark + " -->";
    if (!page.contains(begin) || !page.contains(end)) {
      throw new IllegalStateException(PAGE + " has no place for what was " + mark);
    }
    int from = page.indexOf(begin) + begin.length();
    return page.substring(0, from) + "\n" + text + "\n" + page.substring(page.indexOf(end));
  }

  private static Map<Kind, Map<Sign, Count>> counts(List<Counted.Seen> all) {
    Map<Kind, Map<Sign, Count>> counts = new LinkedHashMap<>();
    for (Counted.Seen unit : all) {
      for (Evidence e : unit.showing().evidence()) {
        counts
            .computeIfAbsent(unit.drawn().kind(), c -> new EnumMap<>(Sign.class))
            .merge(e.sign(), new Count(e.seen() ? 1 : 0, 1), Count::plus);
      }
    }
    return counts;
  }

  private static String csv(Map<Kind, Map<Sign, Count>> counts) {
    StringBuilder text = new StringBuilder();
    text.append(
        "# Of so many simulated units of that kind that could show the sign, so many did.\n");
    text.append("# Counted by the benchmark \"confusion\"; see docs/explanation/confusion.md.\n");
    text.append("# cause;kind;with a loop meter;sign;seen;runs\n");
    for (Cause cause : Cause.values()) {
      counts.forEach(
          (kind, signs) ->
              signs.forEach(
                  (sign, count) -> {
                    if (kind.cause() == cause) {
                      text.append(cause + ";" + kind.words() + ";" + kind.loopMeter() + ";" + sign);
                      text.append(";" + count.seen() + ";" + count.runs() + "\n");
                    }
                  }));
    }
    return text.toString();
  }
}

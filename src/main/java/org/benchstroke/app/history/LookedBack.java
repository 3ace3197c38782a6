package org.benchstroke.app.history;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.app.BenchChecks;
import org.benchstroke.app.Reports;
import org.benchstroke.app.SuspectInstrument;
import org.benchstroke.app.SuspectInstrument.Again;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.Archive;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.archive.RunFilter;
import org.benchstroke.archive.ShopHistory;
import org.benchstroke.core.statistics.LookBack.Fate;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.record.RecordDigest;
import org.benchstroke.record.RecordReader;

/**
 * What an error that was found does to the past: every real run since then, judged again with it.
 * Immutable.
 *
 * @param suspect what was off, and by how much
 * @param runs those that were looked at, what has no date first, then the oldest first
 */
public record LookedBack(SuspectInstrument suspect, List<Looked> runs) {
  /** What was recorded elsewhere without a date stands at the beginning of 1970. */
  private static final Instant DATED = Instant.parse("1970-01-02T00:00:00Z");

  public LookedBack {
    runs = List.copyOf(runs);
  }

  /**
   * What is asked.
   *
   * @param instrument serial number of the instrument; without it all of the bench is suspect
   * @param bench only runs of this bench
   * @param since the day of the last good check, as it was typed
   * @param until the last day on which it was used, as it was typed
   * @param error what was found, with its unit: "0.02mA"
   */
  public record Question(
      Optional<String> instrument,
      Optional<String> bench,
      String since,
      Optional<String> until,
      String error) {}

  /**
   * A run that was looked at again.
   *
   * @param run as the archive has it
   * @param problem why it could not be judged again; empty if it was
   * @param measures each that was judged and is known by what was off
   */
  public record Looked(Heading run, Optional<String> problem, List<Again> measures) {
    public Looked {
      measures = List.copyOf(measures);
    }

    /** What becomes of it; empty if it could not be judged again. */
    public Optional<Fate> fate() {
      return problem.isPresent() ? Optional.empty() : Optional.of(SuspectInstrument.fate(measures));
    }

    /** Likewise, in words. */
    public String word() {
      return fate().map(LookedBack::word).orElse("not judged");
    }

    /** What could not be judged again wants most to be looked at. */
    private int rank() {
      return fate().map(SuspectInstrument::rank).orElse(Integer.MAX_VALUE);
    }

    /** How many of its measures don't keep their word for certain. */
    public long moved() {
      return measures.stream().filter(a -> a.found().fate() != Fate.KEPT).count();
    }

    /** Whether anybody knows when it was. */
    public boolean dated() {
      return !run.facts().begun().isBefore(DATED);
    }

    private List<String> job() {
      return List.of(run.labels().order(), run.labels().serial());
    }
  }

  /** A fate in words. */
  public static String word(Fate fate) {
    return fate.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  /**
   * Looks.
   *
   * @param suspect what the question says is off
   * @throws WrongRequest if a day is none, or there is no such run
   */
  public static LookedBack of(
      Archive archive, Question question, SuspectInstrument suspect, Naming naming)
      throws WrongRequest, ArchiveFault {
    List<Looked> looked = new ArrayList<>();
    for (Heading run : runs(archive, question, naming)) {
      looked.add(look(run, suspect));
    }
    return new LookedBack(suspect, looked);
  }

  /**
   * What is off; asked for before an archive is opened.
   *
   * @throws WrongRequest if nobody is suspect, or the error is none
   */
  public static SuspectInstrument suspect(
      Optional<String> instrument, Optional<String> bench, String error, Naming naming)
      throws WrongRequest {
    if (instrument.isEmpty() && bench.isEmpty()) {
      throw new WrongRequest(
          "look-back: whose error is it? Add "
              + naming.of("instrument")
              + " or "
              + naming.of("bench"));
    }
    return SuspectInstrument.of(instrument, naming.of("error"), error);
  }

  /**
   * The day of a bench's last good check, whichever folder it was made in.
   *
   * @throws WrongRequest if no bench is named, or it has none
   */
  public static String lastGood(Archive archive, Optional<String> bench, Naming naming)
      throws ArchiveFault, WrongRequest {
    String since = naming.of("since");
    if (bench.isEmpty()) {
      throw new WrongRequest(since + ": is missing; state the day of the last good check");
    }
    return BenchChecks.lastGood(BenchChecks.of(archive.checksOf(bench.get(), false)))
        .map(at -> LocalDate.ofInstant(at, ZoneOffset.UTC).toString())
        .orElseThrow(
            () ->
                new WrongRequest(
                    since
                        + ": the archive "
                        + archive.place()
                        + " has no good check of bench \""
                        + bench.get()
                        + "\"; state the day of the last one"));
  }

  /** A simulated run was measured by no instrument; what has no date may have been since then. */
  private static List<Heading> runs(Archive archive, Question question, Naming naming)
      throws WrongRequest, ArchiveFault {
    Optional<Instant> from = Days.from(naming.of("since"), Optional.of(question.since()));
    Optional<Instant> before = Days.before(naming.of("until"), question.until());
    List<Heading> found = new ArrayList<>();
    for (Heading run : runs(archive, question, Optional.empty(), Optional.of(DATED))) {
      if (run.facts().imported()) {
        found.add(run);
      }
    }
    found.addAll(runs(archive, question, from, before));
    if (found.isEmpty()) {
      throw new WrongRequest(
          "the archive "
              + archive.place()
              + " has no real run with it since "
              + question.since()
              + "; check the serial number, the name of the bench and the day");
    }
    return found;
  }

  private static List<Heading> runs(
      Archive archive, Question question, Optional<Instant> from, Optional<Instant> before)
      throws ArchiveFault {
    Optional<String> any = Optional.empty();
    RunFilter filter = new RunFilter(any, any, any, any, any, question.bench(), from, before);
    ShopHistory history = new ShopHistory(archive, filter, false);
    return question.instrument().isPresent()
        ? history.runsWith(question.instrument().get())
        : history.runs();
  }

  private static Looked look(Heading run, SuspectInstrument suspect) {
    Path file = Path.of(run.file().folder()).resolve(run.file().name());
    if (!Files.exists(file)) {
      return new Looked(run, Optional.of("its record is not in " + run.file().folder()), List.of());
    }
    try {
      JudgedRun judged = Reports.judge(file);
      Optional<String> sha256 = judged.record().digest().map(RecordDigest::sha256);
      if (judged.simulated()) {
        return new Looked(run, Optional.of("its record is of a simulated unit"), List.of());
      }
      return sha256.equals(Optional.of(run.file().sha256()))
          ? new Looked(run, Optional.empty(), suspect.again(judged))
          : new Looked(run, Optional.of("its bytes have changed since it was archived"), List.of());
    } catch (RecordReader.NotARecord | FileMistakes e) {
      String line = e.getMessage().lines().findFirst().orElse("");
      return new Looked(run, Optional.of("its record can't be judged: " + line), List.of());
    }
  }

  /** Whether every verdict is kept. */
  public boolean kept() {
    return runs.stream().allMatch(l -> l.rank() <= SuspectInstrument.rank(Fate.KEPT));
  }

  /** How many jobs, by what becomes of the worst of their runs, in words. */
  public Map<String, Long> jobs() {
    Map<List<String>, Looked> jobs = new LinkedHashMap<>();
    Comparator<Looked> byRank = Comparator.comparingInt(Looked::rank);
    runs.forEach(each -> jobs.merge(each.job(), each, (a, b) -> byRank.compare(a, b) < 0 ? b : a));
    Map<String, Long> counts = new LinkedHashMap<>();
    jobs.values().forEach(worst -> counts.merge(worst.word(), 1L, Long::sum));
    return counts;
  }

  /** That it touches nothing, in a sentence; empty if it does. */
  public Optional<String> touchesNothing() {
    return runs.stream().allMatch(each -> each.measures().isEmpty())
        ? Optional.of(
            "No measure that was judged is known by it in this unit: is the error stated in the"
                + " unit of what it measures?")
        : Optional.empty();
  }
}

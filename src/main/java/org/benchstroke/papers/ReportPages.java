package org.benchstroke.papers;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RunRecord;

/** Puts a judged run into the words of a report. A pure function; stateless. */
public final class ReportPages {
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final DateTimeFormatter SHOWN =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);
  private static final int SERIAL_IN_NUMBER = 40;

  private ReportPages() {}

  static ReportPage of(
      TwinAndCauses aids,
      Optional<String> recordFile,
      Optional<Signatory> authorised,
      String style) {
    JudgedRun run = aids.run();
    List<Section> sections = sections(aids, recordFile);
    sections.add(Signatory.section(run, authorised));
    return new ReportPage(
        number(run),
        orDash(run.record().label(Label.SERIAL)),
        headed(run),
        headline(run),
        reason(run),
        notices(run),
        run.simulated(),
        sections,
        BenchSections.basis(run),
        style);
  }

  /** All but the last two sections. */
  public static List<Section> sections(TwinAndCauses aids, Optional<String> recordFile) {
    List<Section> sections = new ArrayList<>(first(aids));
    sections.addAll(rest(aids, recordFile));
    return sections;
  }

  /** What everybody asks first: what failed, what was found, what is behind it. */
  public static List<Section> first(TwinAndCauses aids) {
    List<Section> sections = new ArrayList<>();
    ResultSections.notMet(aids.run()).ifPresent(sections::add);
    sections.add(RunSections.findings(aids.run()));
    DiagnosisSection.of(aids).ifPresent(sections::add);
    return sections;
  }

  /** The sections behind those. */
  public static List<Section> rest(TwinAndCauses aids, Optional<String> recordFile) {
    JudgedRun run = aids.run();
    List<Section> sections = new ArrayList<>();
    sections.add(RunSections.unitAndTest(run, recordFile));
    SetUpSection.of(run).ifPresent(sections::add);
    sections.add(RunSections.tests(run));
    sections.add(ResultSections.measures(run));
    ResultSections.orders(run).ifPresent(sections::add);
    ResultSections.travel(run).ifPresent(sections::add);
    Plots.section(run).ifPresent(sections::add);
    sections.addAll(TestPlots.sections(run));
    sections.add(BenchSections.instruments(run));
    sections.add(RunSections.faults(run));
    sections.add(RunSections.safeSignal(run));
    sections.add(BenchSections.preflight(run));
    onRequest(aids).map(Section::askedFor).forEach(sections::add);
    return sections;
  }

  /** What an engineer asks for: most of a report's length, and nothing that a verdict hangs on. */
  private static Stream<Section> onRequest(TwinAndCauses aids) {
    JudgedRun run = aids.run();
    return Stream.of(
            RiskSection.of(aids),
            ResultSections.unjudged(run),
            BudgetSection.of(run),
            Optional.of(TwinSection.of(aids.twin())),
            Optional.of(Methods.section(run)),
            Optional.of(RunSections.cautions(run)))
        .flatMap(Optional::stream);
  }

  /** The last section: what all of it rests on. */
  public static Section basis(JudgedRun run) {
    return BenchSections.basis(run);
  }

  /**
   * A number that the same record always gets: the unit's serial and when the run began; of what
   * was recorded elsewhere, the beginning of the file's check sum. Each amendment gives it another
   * one: a report that was given away before must not be taken for the one after.
   */
  public static String number(JudgedRun run) {
    String serial = run.record().opened().serial().replaceAll("[^A-Za-z0-9]+", "-");
    String kept = serial.substring(0, Math.min(SERIAL_IN_NUMBER, serial.length()));
    String inner = kept.replaceAll("^-|-$", "");
    String when =
        run.imported()
            .map(i -> i.sha256().substring(0, 12))
            .orElseGet(() -> STAMP.format(began(run)));
    int amended = run.record().amendments().all().size();
    String which = amended == 0 ? "" : "-A" + amended;
    return "BS-" + (inner.isEmpty() ? "no-serial" : inner) + "-" + when + which;
  }

  /**
   * The word for the whole unit. A run that isn't whole can fail, but nothing better than <em>no
   * result</em> is shown for it, whatever its figures say.
   */
  public static Word shown(JudgedRun run) {
    boolean failed = run.verdict() == Word.FAIL;
    return run.complete() || failed ? run.verdict() : Word.NO_RESULT;
  }

  /** Of readings of others that are within their limits, no sign of a pass is shown. */
  public static Word headed(JudgedRun run) {
    return proves(run) ? shown(run) : Word.NO_RESULT;
  }

  /** The word that is set largest. */
  public static String headline(JudgedRun run) {
    return proves(run) ? shown(run).ofUnit() : "not proven";
  }

  /** Why, in a sentence or two. */
  public static String reason(JudgedRun run) {
    return proves(run)
        ? run.reason()
        : "Recorded elsewhere: nothing here proves its setpoints, its losses of the signal, or that"
            + " it is this unit. The readings as they stand: "
            + shown(run).ofUnit()
            + ". "
            + run.reason();
  }

  /** A failure is one whoever recorded it; anything better rests on what this program saw. */
  private static boolean proves(JudgedRun run) {
    Word word = shown(run);
    return run.imported().isEmpty() || word == Word.FAIL || word == Word.NO_RESULT;
  }

  /** When the run began, by the record. */
  public static Instant began(JudgedRun run) {
    return run.record().entries().get(0).utc();
  }

  /** When the run began, as far as anyone knows. */
  static String date(JudgedRun run) {
    boolean known = run.imported().map(Event.Imported::dated).orElse(true);
    return known ? minute(run.record(), began(run)) : "not in the file";
  }

  /** By the clock on the bench's wall, and how far that is ahead of UTC. */
  static String minute(RunRecord record, Instant utc) {
    ZoneOffset offset = record.offset();
    String ahead = offset.equals(ZoneOffset.UTC) ? "UTC" : "UTC" + offset.getId();
    return SHOWN.format(utc.atOffset(offset)) + " " + ahead;
  }

  static String orDash(String text) {
    return text.isBlank() ? Figures.NONE : text;
  }

  /** What must be seen beside the word. */
  public static List<String> notices(JudgedRun run) {
    List<String> notices = new ArrayList<>();
    if (run.simulated()) {
      notices.add(
          "SIMULATED: "
              + withoutStop(run.simulation())
              + ". No real unit was tested. This report can't serve as a certificate.");
    }
    run.imported()
        .ifPresent(
            i ->
                notices.add(
                    "RECORDED ELSEWHERE, not by this program: "
                        + i.file()
                        + (i.notes().isEmpty() ? "." : ". " + i.notes().get(0))));
    ending(run).ifPresent(notices::add);
    if (!run.complete()) {
      notices.add("INCOMPLETE: the run is not whole and valid. It can't pass.");
    }
    if (!run.record().flaws().isEmpty()) {
      notices.add("DAMAGED RECORD: " + String.join("; ", run.record().flaws()) + ".");
    }
    notices.addAll(SealWords.notices(run.record()));
    notices.addAll(BenchSections.notices(run));
    if (!run.stemProven()) {
      notices.add(
          "STEM NOT PROVEN: no independent reference has measured the stem. The unit's own feedback"
              + " proves its controller, not the valve.");
    }
    return notices;
  }

  private static String withoutStop(String sentence) {
    return sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
  }

  private static Optional<String> ending(JudgedRun run) {
    Optional<Event.Closed> closed = run.record().closed();
    if (closed.isEmpty()) {
      return Optional.of("INTERRUPTED: the record has no closing line.");
    }
    String how = closed.get().how();
    if (how.equals("complete")) {
      return Optional.empty();
    }
    String reason = closed.get().reason();
    return Optional.of("ENDED EARLY: " + how + (reason.isBlank() ? "." : " – " + reason));
  }
}

package org.benchstroke.papers;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;

/** Puts a judged run into the words of a report. A pure function; stateless. */
public final class ReportPages {
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final DateTimeFormatter SHOWN =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm 'UTC'", Locale.ROOT).withZone(ZoneOffset.UTC);
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
        shown(run),
        run.reason(),
        notices(run),
        run.simulated(),
        sections,
        BenchSections.basis(run),
        style);
  }

  /** All but the last two sections. */
  public static List<Section> sections(TwinAndCauses aids, Optional<String> recordFile) {
    JudgedRun run = aids.run();
    List<Section> sections = new ArrayList<>();
    sections.add(RunSections.unitAndTest(run, recordFile));
    sections.add(RunSections.findings(run));
    sections.add(RunSections.tests(run));
    sections.add(ResultSections.measures(run));
    RiskSection.of(run).ifPresent(sections::add);
    ResultSections.orders(run).ifPresent(sections::add);
    ResultSections.travel(run).ifPresent(sections::add);
    Plots.section(run).ifPresent(sections::add);
    sections.addAll(TestPlots.sections(run));
    DiagnosisSection.of(aids).ifPresent(sections::add);
    sections.add(TwinSection.of(aids.twin()));
    sections.add(Methods.section(run));
    sections.add(BenchSections.instruments(run));
    sections.add(BenchSections.preflight(run));
    sections.add(RunSections.faults(run));
    sections.add(RunSections.safeSignal(run));
    sections.add(RunSections.cautions(run));
    ResultSections.unjudged(run).ifPresent(sections::add);
    BudgetSection.of(run).ifPresent(sections::add);
    return sections;
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

  /** When the run began, by the record. */
  public static Instant began(JudgedRun run) {
    return run.record().entries().get(0).utc();
  }

  /** When the run began, as far as anyone knows. */
  static String date(JudgedRun run) {
    boolean known = run.imported().map(Event.Imported::dated).orElse(true);
    return known ? minute(began(run)) : "not in the file";
  }

  static String minute(Instant utc) {
    return SHOWN.format(utc);
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

package org.benchstroke.web.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.judge.Word;
import org.benchstroke.papers.ReportPage;
import org.benchstroke.papers.ReportPages;
import org.benchstroke.papers.Section;
import org.benchstroke.unit.MeasureKind;

/**
 * A judged run as the screen shows it. Immutable.
 *
 * @param number of its report
 * @param word the key of its shape
 * @param headline the word that is set largest
 * @param reason why
 * @param notices what must be seen beside it
 * @param first what everybody asks first
 * @param missed the measures that are not met, each once: they want to be explained
 * @param rest what is folded
 */
public record RunReport(
    String number,
    String word,
    String headline,
    String reason,
    List<String> notices,
    List<Section> first,
    List<MeasureKind> missed,
    List<Section> rest) {
  public RunReport {
    notices = List.copyOf(notices);
    first = List.copyOf(first);
    missed = List.copyOf(missed);
    rest = List.copyOf(rest);
  }

  /**
   * Of a run.
   *
   * @param file the name of its record
   */
  static RunReport of(TwinAndCauses aids, String file) {
    JudgedRun run = aids.run();
    List<Section> rest = new ArrayList<>(ReportPages.rest(aids, Optional.of(file)));
    rest.add(ReportPages.basis(run));
    List<MeasureKind> missed =
        run.judgements().stream()
            .filter(each -> each.word().filter(word -> word != Word.PASS).isPresent())
            .map(each -> each.measure().kind())
            .distinct()
            .toList();
    return new RunReport(
        ReportPages.number(run),
        ReportPage.key(ReportPages.headed(run)),
        ReportPages.headline(run),
        ReportPages.reason(run),
        ReportPages.notices(run),
        ReportPages.first(aids),
        missed,
        rest);
  }
}

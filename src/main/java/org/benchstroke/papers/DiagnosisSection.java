package org.benchstroke.papers;

import static org.benchstroke.papers.ReportPages.orDash;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.Diagnosis;
import org.benchstroke.aids.diagnosis.EvidenceWords;
import org.benchstroke.aids.diagnosis.RankedCause;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.judge.Finding;
import org.benchstroke.papers.Block.Cell;

/** What most likely is behind the figures, in a report. A pure function; stateless. */
final class DiagnosisSection {
  private static final int SHOWN = 3;
  private static final double WORTH_SAYING = 0.02;

  private DiagnosisSection() {}

  /** Empty for what was recorded elsewhere: its sampling is not known well enough. */
  static Optional<Section> of(TwinAndCauses aids) {
    if (aids.run().imported().isPresent()) {
      return Optional.empty();
    }
    List<Finding> findings = aids.run().findings();
    Diagnosis diagnosis = aids.diagnosis();
    List<Block> blocks = new ArrayList<>();
    blocks.add(
        new Block.Paragraph(
            "An aid, not part of the verdict. The percentages were counted on simulated units."));
    boolean causes = diagnosis.outcome().namesCauses();
    if (causes && diagnosis.passed()) {
      blocks.add(
          new Block.Paragraph(
              "The unit passed every limit that was agreed, and yet something looks wrong.", true));
    }
    if (causes) {
      blocks.add(table(diagnosis, new EvidenceWords(findings)));
      List<Block.Fact> facts = new ArrayList<>();
      facts.add(new Block.Fact("Named", diagnosis.namedInWords()));
      diagnosis
          .rest(new EvidenceWords(findings))
          .ifPresent(words -> facts.add(new Block.Fact("Also", words)));
      diagnosis.next().ifPresent(n -> facts.add(new Block.Fact("To be sure", n + ".")));
      facts.add(
          new Block.Fact("Advice", diagnosis.advice() + "; the unit's own manual comes first."));
      blocks.add(new Block.Facts(facts));
    } else {
      blocks.add(new Block.Bullets(diagnosis.linesBeside(findings)));
    }
    return Optional.of(new Section("Likely causes", blocks));
  }

  private static Block table(Diagnosis diagnosis, EvidenceWords words) {
    List<List<Cell>> rows = new ArrayList<>();
    List<RankedCause> likely =
        diagnosis.ranked().stream()
            .limit(SHOWN)
            .filter(r -> r.probability() > WORTH_SAYING)
            .toList();
    for (RankedCause r : likely) {
      rows.add(
          List.of(
              Cell.text(r.cause().title()),
              Cell.number(Numbers.fixed(100.0 * r.probability(), 0) + " %"),
              Cell.text(orDash(words.words(r.evidenceFor()))),
              Cell.text(orDash(words.words(r.evidenceAgainst())))));
    }
    return new Block.Grid(
        "The likeliest first", List.of("Cause", "Probability", "For it", "Not seen"), rows);
  }
}

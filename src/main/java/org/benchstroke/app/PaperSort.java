package org.benchstroke.app;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.papers.Letterhead;
import org.benchstroke.papers.sheets.Issue;
import org.benchstroke.papers.sheets.LabelSize;
import org.benchstroke.papers.sheets.Papers;
import org.benchstroke.papers.sheets.Subject;

/** The papers of a run. */
public enum PaperSort {
  /** The report, an HTML page. */
  PAGE,
  CERTIFICATE,
  ANNEX,
  SHEET,
  LABEL;

  /** The one that is asked for by its key; empty if there is no such paper. */
  public static Optional<PaperSort> of(String key) {
    return Arrays.stream(values()).filter(sort -> sort.key().equals(key)).findFirst();
  }

  /** As it is typed. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What sort of file it is. */
  public OutputFiles.Kind kind() {
    return this == PAGE ? OutputFiles.Kind.REPORT : OutputFiles.Kind.PAPER;
  }

  /** Its usual place. */
  public Path beside(RecordFiles files) {
    return this == PAGE ? files.report() : files.paper(key());
  }

  /**
   * Refuses a logo that can't be set.
   *
   * @throws WrongRequest with the reason
   */
  public static void requireLogo(Optional<Letterhead> head) throws WrongRequest {
    Optional<Path> drawn = head.flatMap(Letterhead::logo);
    if (drawn.isPresent()) {
      Optional<String> obstacle = Papers.logoObstacle(drawn.get());
      if (obstacle.isPresent()) {
        throw new WrongRequest("the logo, " + drawn.get() + ": " + obstacle.get());
      }
    }
  }

  /** Why a certificate that is asked for is a test report; empty if it is a certificate. */
  public List<String> obstacles(Subject subject, Issue issue) {
    return this == CERTIFICATE ? Papers.obstacles(subject, issue) : List.of();
  }

  /**
   * The file.
   *
   * @param label the size of a label
   * @throws IllegalArgumentException if it is the page, which is no PDF
   */
  public byte[] pdf(Subject subject, Issue issue, LabelSize label) {
    Papers papers = new Papers();
    return switch (this) {
      case CERTIFICATE -> papers.certificate(subject, issue);
      case ANNEX -> papers.annex(subject, issue);
      case SHEET -> papers.sheet(subject, issue);
      case LABEL -> papers.label(subject, issue, label);
      case PAGE -> throw new IllegalArgumentException("a page is no PDF");
    };
  }
}

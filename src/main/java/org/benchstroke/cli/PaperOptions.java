package org.benchstroke.cli;

import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.FiledRecords;
import org.benchstroke.app.PaperSort;
import org.benchstroke.app.Setting;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.judge.JudgedRun;
import org.benchstroke.papers.Language;
import org.benchstroke.papers.Letterhead;
import org.benchstroke.papers.PaperSize;
import org.benchstroke.papers.Signatory;
import org.benchstroke.papers.sheets.Edition;
import org.benchstroke.papers.sheets.Issue;
import org.benchstroke.papers.sheets.LabelSize;
import org.benchstroke.papers.sheets.Subject;
import picocli.CommandLine.Option;

/** The options that say which paper is written, and how. */
final class PaperOptions {
  private static final int LONGEST_REMARK = 800;

  @Option(
      names = "--paper",
      paramLabel = "WORD",
      description =
          "page (the report, HTML; the default), or as PDF: certificate, annex (all measures and"
              + " plots), sheet (for the workshop), label.")
  private String paper = PaperSort.PAGE.key();

  @Option(
      names = "--paper-size",
      paramLabel = "WORD",
      description = "Of a PDF: a4 or letter (default: what is stated, or a4).")
  private Optional<String> size = Optional.empty();

  @Option(
      names = "--language",
      paramLabel = "WORD",
      description =
          "Of a PDF: en or de (default: what is stated, or en); what a test found stays English.")
  private Optional<String> language = Optional.empty();

  @Option(
      names = "--label-size",
      paramLabel = "WORD",
      description = "Of a label: 62x29 (mm; the default), 100x50 or 4x2in.")
  private Optional<String> labelSize = Optional.empty();

  @Option(
      names = "--logo",
      paramLabel = "FILE",
      description = "Of a PDF: the shop's logo, PNG or SVG.")
  private Optional<Path> logo = Optional.empty();

  @Option(
      names = "--issued",
      paramLabel = "TIME",
      description =
          "Of a PDF: when it is issued, like 2026-06-01T10:00+02:00 (default: now). The same time"
              + " gives the same file, byte for byte.")
  private Optional<String> issued = Optional.empty();

  @Option(
      names = "--condition",
      paramLabel = "TEXT",
      description = "Of a certificate: the condition of the unit when it was received.")
  private Optional<String> condition = Optional.empty();

  @Option(
      names = "--deviations",
      paramLabel = "TEXT",
      description = "Of a certificate: deviations from the methods.")
  private Optional<String> deviations = Optional.empty();

  @Option(names = "--remarks", paramLabel = "TEXT", description = "Of a certificate: remarks.")
  private Optional<String> remarks = Optional.empty();

  @Option(
      names = "--supersedes",
      paramLabel = "TEXT",
      description =
          "Of a certificate that is issued again: why. It gets a number of its own and names the one"
              + " that it supersedes.")
  private Optional<String> supersedes = Optional.empty();

  /**
   * Which paper is asked for.
   *
   * @throws WrongRequest if there is no such one, or an option has no place on it
   */
  PaperSort sort() throws WrongRequest {
    PaperSort sort = one("--paper", paper, Arrays.asList(PaperSort.values()), PaperSort::key);
    if (sort == PaperSort.PAGE) {
      for (Map.Entry<String, Optional<?>> option : ofPdf().entrySet()) {
        if (option.getValue().isPresent()) {
          throw new WrongRequest(
              option.getKey()
                  + ": has no place on the HTML page; name a PDF with --paper, certificate for"
                  + " instance");
        }
      }
    }
    if (sort != PaperSort.LABEL && labelSize.isPresent()) {
      throw new WrongRequest("--label-size: needs --paper label");
    }
    return sort;
  }

  private Map<String, Optional<?>> ofPdf() {
    Map<String, Optional<?>> options = new LinkedHashMap<>();
    options.put("--paper-size", size);
    options.put("--language", language);
    options.put("--label-size", labelSize);
    options.put("--logo", logo);
    options.put("--issued", issued);
    options.put("--condition", condition);
    options.put("--deviations", deviations);
    options.put("--remarks", remarks);
    return options;
  }

  private static <T> T one(String option, String typed, List<T> all, Function<T, String> key)
      throws WrongRequest {
    Optional<T> found = all.stream().filter(each -> key.apply(each).equals(typed)).findFirst();
    if (found.isEmpty()) {
      String allowed = all.stream().map(key).collect(Collectors.joining(", "));
      throw new WrongRequest(option + ": found \"" + typed + "\", allowed are " + allowed);
    }
    return found.get();
  }

  /** How it is issued. */
  Issue issue(JudgedRun run, Defaults stated, Optional<Signatory> by) throws WrongRequest {
    Optional<Letterhead> head = FiledRecords.letterhead(run, stated.shop(), logo);
    PaperSort.requireLogo(head);
    return new Issue(
        head,
        one(
            "--paper-size",
            stated.text(Setting.PAPER, size).orElseThrow().toLowerCase(Locale.ROOT),
            List.of(PaperSize.values()),
            PaperOptions::key),
        one(
            "--language",
            stated.text(Setting.LANGUAGE, language).orElseThrow().toLowerCase(Locale.ROOT),
            List.of(Language.values()),
            Language::key),
        issued(),
        ZoneId.systemDefault(),
        by,
        Version.text(),
        new Issue.Said(
            said("--condition", condition),
            said("--deviations", deviations),
            said("--remarks", remarks)),
        Edition.FIRST);
  }

  /** Why a certificate is issued again; empty if it isn't. */
  Optional<String> supersedes() throws WrongRequest {
    return supersedes.isEmpty() ? Optional.empty() : Optional.of(said("--supersedes", supersedes));
  }

  private static String key(PaperSize size) {
    return size.key().toLowerCase(Locale.ROOT);
  }

  private Instant issued() throws WrongRequest {
    if (issued.isEmpty()) {
      return SystemClock.realTime().utc();
    }
    try {
      return OffsetDateTime.parse(issued.get()).toInstant();
    } catch (DateTimeException e) {
      throw new WrongRequest(
          "--issued: found \""
              + issued.get()
              + "\", allowed is a time with its distance from UTC, like 2026-06-01T10:00+02:00");
    }
  }

  private static String said(String option, Optional<String> text) throws WrongRequest {
    if (text.isPresent() && (text.get().isBlank() || text.get().length() > LONGEST_REMARK)) {
      throw new WrongRequest(
          option
              + ": allowed is a text that is not blank, of up to "
              + LONGEST_REMARK
              + " characters");
    }
    return text.orElse("").strip();
  }

  /** The file. */
  byte[] pdf(PaperSort sort, Subject subject, Issue issue) throws WrongRequest {
    LabelSize size =
        one(
            "--label-size",
            labelSize.orElse(LabelSize.SMALL.key()),
            List.of(LabelSize.values()),
            LabelSize::key);
    return sort.pdf(subject, issue, size);
  }
}

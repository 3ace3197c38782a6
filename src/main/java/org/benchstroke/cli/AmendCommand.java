package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.benchstroke.app.Archiving;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchiveFault;
import org.benchstroke.archive.ArchivePlace;
import org.benchstroke.core.clock.SystemClock;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.papers.Json;
import org.benchstroke.record.AmendmentFiles;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.NoKey;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Corrects a label that was mistyped, beside the record. */
@Command(
    name = "amend",
    description = {
      Commands.AMEND,
      "The record stays as it is: the amendment is a sealed file beside it, and judge and report"
          + " show what it says, who amended it, when and why, and what stood there before. A"
          + " figure or a limit can't be amended: test again."
    },
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class AmendCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RECORD", description = "The record, a .jsonl file.")
  private Path file;

  @Option(
      names = "--field",
      paramLabel = "WORD",
      required = true,
      description =
          "What was mistyped: serial, order, customer, operator, tag, actuator_maker,"
              + " actuator_model, valve_maker, valve_model, valve_serial, received or supervisor.")
  private String field;

  @Option(
      names = "--to",
      paramLabel = "TEXT",
      required = true,
      description = "What it should have been.")
  private String to;

  @Option(names = "--by", paramLabel = "NAME", required = true, description = "Who amends it.")
  private String by;

  @Option(
      names = "--reason",
      paramLabel = "TEXT",
      required = true,
      description = "Why, for the report.")
  private String reason;

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Mixin private ArchiveOption archive;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws WrongRequest, FileMistakes, RecordReader.NotARecord, ArchiveFault {
    Path folder = Optional.ofNullable(file.getParent()).orElse(Path.of(""));
    Optional<ArchivePlace> place = archive.ifAny(folder);
    WrongRequest.requireWords("--to", to);
    WrongRequest.requireWords("--by", by);
    WrongRequest.requireWords("--reason", reason);
    Label label = label();
    if (!label.fits(to.strip())) {
      throw new WrongRequest(JobOptions.notADate("--to", to.strip()));
    }
    RunRecord record = RecordReader.read(file);
    requireAmendable(record);
    String was = record.label(label);
    if (was.equals(to.strip())) {
      throw new WrongRequest(
          file + ": the " + label.words() + " is " + to.strip() + " already; nothing is amended");
    }
    Path written = write(record, label);
    tell(label, was, written);
    place.ifPresent(
        there -> Archiving.afterAmendment(there, file).forEach(Shown.err(spec)::println));
    return ExitCode.PASSED;
  }

  private void tell(Label label, String was, Path written) {
    Shown out = Shown.out(spec);
    if (json) {
      Map<String, Object> told = new LinkedHashMap<>();
      told.put("format", 1);
      told.put("record", file.toString());
      told.put("field", label.key());
      told.put("was", was);
      told.put("is", to.strip());
      told.put("amendment", written.toString());
      out.println(Json.line(told));
    } else {
      String before = was.isBlank() ? "not stated" : was;
      out.println("Amended: " + label.words() + " " + to.strip() + ", was " + before);
      out.println("In:      " + written);
      out.println("The record stays as it is. Write its report again: report " + file);
    }
    out.flush();
  }

  private Label label() throws WrongRequest {
    return Label.of(field)
        .orElseThrow(
            () ->
                new WrongRequest(
                    "--field: found \""
                        + field
                        + "\", allowed are "
                        + Stream.of(Label.values())
                            .map(Label::key)
                            .collect(Collectors.joining(", "))
                        + "; figures, limits and files can't be amended"));
  }

  private void requireAmendable(RunRecord record) throws WrongRequest {
    if (!record.doubts().isEmpty() || !record.flaws().isEmpty()) {
      String why = String.join("; ", record.doubts().isEmpty() ? record.flaws() : record.doubts());
      throw new WrongRequest(file + ": nothing can be amended: " + why);
    }
    if (record.closed().isEmpty()) {
      throw new WrongRequest(
          file + ": nothing can be amended: the run goes on, or was interrupted");
    }
  }

  private Path write(RunRecord record, Label label) throws WrongRequest {
    try {
      BenchKey key = Sealing.key(spec, true);
      return AmendmentFiles.write(
          file,
          record,
          label,
          to.strip(),
          by.strip(),
          reason.strip(),
          SystemClock.realTime().utc(),
          key);
    } catch (NoKey e) {
      throw new WrongRequest("An amendment must be sealed: " + e.getMessage());
    } catch (IOException e) {
      throw WrongRequest.unwritable(file.resolveSibling("amendment"), e);
    }
  }
}

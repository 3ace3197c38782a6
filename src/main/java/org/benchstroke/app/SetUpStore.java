package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.benchstroke.jobs.JobKey;
import org.benchstroke.record.Event;
import org.benchstroke.record.Label;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.RunRecord;
import org.benchstroke.setup.Difference;
import org.benchstroke.setup.SetUpState;
import org.benchstroke.unit.UnitType;

/**
 * The set-ups of a folder, beside the records of runs: files of the same lines, sealed likewise,
 * that end in {@value #END} and so are no attempt at a unit. Any thread.
 *
 * @param folder where they are; it need not be there yet
 */
public record SetUpStore(Path folder) {
  /** How their names end. */
  public static final String END = ".set-up";

  /** So many of one serial number are looked at. Own choice. */
  private static final int MOST = 50;

  /** A new name in the folder, which is free. */
  Path fresh(String serial, Instant now) {
    String base = RecordFiles.stamped(serial, now);
    Path file = folder.resolve(base + END);
    for (int i = 2; Files.exists(file); i++) {
      file = folder.resolve(base + "-" + i + END);
    }
    return file;
  }

  /**
   * What the folder knows of a job's set-up.
   *
   * @param found the newest whole one, as a run's record holds it
   * @param said what a person must know of it, a sentence each
   * @param differences what of it is not as ordered
   */
  public record OfJob(
      Optional<Event.SetUp> found, List<String> said, List<Difference> differences) {
    /** Nothing. */
    static final OfJob NONE = new OfJob(Optional.empty(), List.of(), List.of());

    public OfJob {
      said = List.copyOf(said);
      differences = List.copyOf(differences);
    }

    /** Those that must be put right before a test may begin. */
    public List<Difference> blocking() {
      return differences.stream().filter(Difference::blocks).toList();
    }
  }

  /**
   * Of a job: the newest whole set-up counts; that a newer one was left unfinished is said.
   *
   * @param simulated whether the unit is simulated: others are another job
   * @param unit by which what was noted is compared with the order
   * @throws IOException if the folder can't be listed
   */
  public OfJob of(JobKey job, boolean simulated, UnitType unit) throws IOException {
    List<String> said = new ArrayList<>();
    for (Path file : candidates(job.serial())) {
      Optional<RunRecord> record = read(file, said);
      if (record.isEmpty() || !isOf(record.get(), job, simulated)) {
        continue;
      }
      Event.SetUp setUp = told(file, record.get());
      if (whole(setUp) && record.get().flaws().isEmpty() && record.get().doubts().isEmpty()) {
        List<Difference> differences = Difference.of(setUp.steps(), unit);
        return new OfJob(Optional.of(setUp), said, differences);
      }
      said.add(unfinished(setUp, record.get()));
    }
    return said.isEmpty() ? OfJob.NONE : new OfJob(Optional.empty(), said, List.of());
  }

  /** All that may be of a unit, the newest first. */
  private List<Path> candidates(String serial) throws IOException {
    List<Path> found = new ArrayList<>();
    if (Files.isDirectory(folder)) {
      try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, "*" + END)) {
        for (Path file : files) {
          String name = file.getFileName().toString();
          String asRecord =
              name.substring(0, name.length() - END.length()) + RecordFiles.RECORD_END;
          if (RecordFiles.mayBeOf(serial, asRecord)) {
            found.add(file);
          }
        }
      }
    }
    found.sort(Comparator.reverseOrder());
    return found.subList(0, Math.min(MOST, found.size()));
  }

  private static Optional<RunRecord> read(Path file, List<String> said) {
    try {
      return Optional.of(RecordReader.read(file));
    } catch (RecordReader.NotARecord e) {
      said.add("the set-up " + file.getFileName() + " can't be read and does not count");
      return Optional.empty();
    }
  }

  private static boolean isOf(RunRecord record, JobKey job, boolean simulated) {
    Event.Opened opened = record.opened();
    boolean pretended = !opened.simulated().isBlank() || opened.timeScale() != 1.0;
    return record.label(Label.SERIAL).strip().equals(job.serial())
        && record.label(Label.ORDER).strip().equals(job.order())
        && pretended == simulated;
  }

  private static Event.SetUp told(Path file, RunRecord record) {
    return new Event.SetUp(
        file.getFileName().toString(),
        record.digest().orElseThrow().sha256(),
        record.entries().get(0).utc().toString(),
        record.label(Label.OPERATOR),
        record.closed().map(Event.Closed::how).orElse("interrupted"),
        record.events(Event.SetUpStep.class).toList());
  }

  private static boolean whole(Event.SetUp setUp) {
    return setUp.how().equals(SetUpState.COMPLETE) || setUp.how().equals(SetUpState.CAME_SET_UP);
  }

  private static String unfinished(Event.SetUp setUp, RunRecord record) {
    String day = setUp.begunUtc().substring(0, 10);
    if (!whole(setUp)) {
      return "the set-up of " + day + " was not finished (" + setUp.how() + ") and does not count";
    }
    String why = record.flaws().isEmpty() ? record.doubts().get(0) : record.flaws().get(0);
    return "the set-up of " + day + " does not count: " + why;
  }
}

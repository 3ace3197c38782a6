package org.benchstroke.web.desk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.aids.diagnosis.TwinAndCauses;
import org.benchstroke.app.Reports;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.record.AmendmentFiles;
import org.benchstroke.record.RecordReader;
import org.benchstroke.record.SealFile;
import org.benchstroke.web.Refusal;

/** Records judged, the last few kept: a page and its papers ask for the same one. Any thread. */
final class Judgements {
  private static final int KEPT = 4;

  private final Map<State, Kept> kept = new LinkedHashMap<>(KEPT, 0.75f, true);

  /** A record's file with all that lies beside it and bears on its judgement. */
  private record State(Path file, long bytes, FileTime changed, long sealBytes, int amendments) {
    static State of(Path file) throws IOException {
      Path seal = SealFile.of(file);
      return new State(
          file,
          Files.size(file),
          Files.getLastModifiedTime(file),
          Files.exists(seal) ? Files.size(seal) : -1,
          AmendmentFiles.numbered(file).size());
    }
  }

  /** A run with its page, once that was asked for. Guarded by what keeps it. */
  private static final class Kept {
    private final TwinAndCauses aids;
    private Optional<RunReport> report = Optional.empty();

    Kept(TwinAndCauses aids) {
      this.aids = aids;
    }

    RunReport report(String file) {
      if (report.isEmpty()) {
        report = Optional.of(RunReport.of(aids, file));
      }
      return report.get();
    }
  }

  /** Uses a judged run. */
  interface Use<T> {
    T of(TwinAndCauses aids) throws Exception;
  }

  /**
   * Judges the record of a run, or takes it from those that are kept. One at a time.
   *
   * @throws Refusal if the record is not where it was, or can't be judged
   */
  <T> T with(Heading run, Use<T> use) throws Exception {
    Path file = there(run);
    synchronized (kept) {
      return use.of(judged(file).aids);
    }
  }

  /** A run as the screen shows it. */
  RunReport report(Heading run) throws Refusal, IOException, WrongRequest {
    Path file = there(run);
    synchronized (kept) {
      return judged(file).report(run.file().name());
    }
  }

  private static Path there(Heading run) throws Refusal {
    Path file = Books.file(run);
    if (!Files.isRegularFile(file)) {
      throw Refusal.notThere(
          "The record "
              + run.file().name()
              + " is not in its folder any more. Put it back, or look at what the archive keeps of"
              + " it on the page of the run.");
    }
    return file;
  }

  private Kept judged(Path file) throws Refusal, IOException, WrongRequest {
    State state = State.of(file);
    Kept found = kept.get(state);
    if (found == null) {
      try {
        found = new Kept(new TwinAndCauses(Reports.judge(file)));
      } catch (RecordReader.NotARecord | FileMistakes e) {
        throw Refusal.wrong("The record can't be judged: " + e.getMessage());
      }
      kept.put(state, found);
      Iterator<State> eldest = kept.keySet().iterator();
      if (kept.size() > KEPT && eldest.hasNext()) {
        eldest.next();
        eldest.remove();
      }
    }
    return found;
  }
}

package org.benchstroke.archive;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * Makes an archive anew from folders of records. In a file the new one takes the old one's place
 * when it is whole, so that whoever stops it loses nothing; on a server, where other benches write
 * as well, runs are written anew one batch after the other. One thread.
 */
public final class Rebuild {
  /** Runs of a transaction. */
  private static final int BATCH = 200;

  private final ArchivePlace place;
  private final boolean judge;
  private final LetGo letGo;
  private final Seen seen;
  private final Set<String> digests = new HashSet<>();
  private final Map<Taken.State, Integer> counts = new EnumMap<>(Taken.State.class);
  private final List<Taken> flawed = new ArrayList<>();
  private int added;

  /** Is told how far it is. */
  public interface Seen {
    void taken(int done, int all);
  }

  /**
   * Of an archive.
   *
   * @param judge whether every record is judged, whatever stands beside it
   * @param letGo which runs are left out though their records are not in the folders
   * @param seen is told how far it is
   */
  public Rebuild(ArchivePlace place, boolean judge, LetGo letGo, Seen seen) {
    this.place = place;
    this.judge = judge;
    this.letGo = letGo;
    this.seen = seen;
  }

  /**
   * Runs that may go though their records were not met.
   *
   * @param any of whatever bench; in a file only, for a server's archive is other benches' too
   * @param benches those of these benches
   */
  public record LetGo(boolean any, Set<String> benches) {
    /** None. */
    public static final LetGo NONE = new LetGo(false, Set.of());

    public LetGo {
      benches = Set.copyOf(benches);
    }

    boolean of(String bench) {
      return any || benches.contains(bench);
    }
  }

  /**
   * What came of it.
   *
   * @param files how many were read
   * @param runs how many are in the archive now because of them; copies count once
   * @param counts of the files by what they are
   * @param flawed those that are not sound, the files in order
   * @param strangers runs of the archive whose records were not met, by bench; kept where they
   *     belong to other benches on a server
   * @param gone how many of them were let go
   * @param replaced whether the new archive is in place
   */
  public record Result(
      int files,
      int runs,
      Map<Taken.State, Integer> counts,
      List<Taken> flawed,
      Map<String, Integer> strangers,
      int gone,
      boolean replaced) {}

  /** Reads all records of these folders. */
  public Result from(List<Path> folders) throws ArchiveFault {
    if (letGo.any() && place instanceof ArchivePlace.OnServer) {
      throw new ArchiveFault(
          "the archive "
              + place
              + " is on a server, where other benches' runs are too: name the benches whose runs may"
              + " go though their records are in none of these folders, with --bench NAME for each");
    }
    Set<Path> files = new LinkedHashSet<>();
    for (Path folder : folders) {
      FolderOfRecords.of(folder).files().forEach(f -> files.add(f.toAbsolutePath().normalize()));
    }
    return place instanceof ArchivePlace.InFile in
        ? inFile(in, List.copyOf(files))
        : onServer(List.copyOf(files));
  }

  private Result inFile(ArchivePlace.InFile in, List<Path> files) throws ArchiveFault {
    Path draft = Archive.draft(in);
    try {
      Files.createDirectories(draft.getParent());
      requireReplaceable(in);
      try (Archive archive = Archive.drafted(draft, place)) {
        fill(archive, files);
        archive.analyse();
      }
      Map<String, Integer> strangers = strangersOfOld();
      boolean may = letGo.any() || strangers.keySet().stream().allMatch(letGo::of);
      if (may) {
        Archive.replace(draft, in);
      }
      return result(files, strangers, may ? sum(strangers) : 0, may);
    } catch (IOException e) {
      throw Faults.unwritable(place, e);
    } finally {
      Archive.forget(draft);
    }
  }

  /** A file that is something else stays; one that is damaged is what this is for. */
  private static void requireReplaceable(ArchivePlace.InFile in) throws ArchiveFault, IOException {
    Path file = in.file();
    if (!Files.exists(file)) {
      return;
    }
    if (!Files.isRegularFile(file) || !Files.isWritable(file)) {
      throw new ArchiveFault(
          "the archive " + file + " can't be written: it is write-protected, or no ordinary file");
    }
    byte[] mark = "SQLite format 3".getBytes(StandardCharsets.US_ASCII);
    try (var bytes = Files.newInputStream(file)) {
      byte[] begin = bytes.readNBytes(mark.length);
      if (begin.length > 0 && !Arrays.equals(begin, mark)) {
        throw new ArchiveFault(
            "the archive " + file + " is not a database; name another file with --archive");
      }
    }
  }

  private Map<String, Integer> strangersOfOld() throws ArchiveFault {
    if (!Files.exists(((ArchivePlace.InFile) place).file())) {
      return Map.of();
    }
    try (Archive old = Archive.existing(place)) {
      return strangers(old.benchesByDigest());
    } catch (ArchiveFault e) {
      if (e.kind() != ArchiveFault.Kind.DAMAGED) {
        throw e;
      }
      return Map.of(); // It can't be read any more: there is nothing in it to be lost.
    }
  }

  private Result onServer(List<Path> files) throws ArchiveFault {
    try (Archive archive = Archive.open(place)) {
      fill(archive, files);
      Map<String, String> all = archive.benchesByDigest();
      Map<String, Integer> strangers = strangers(all);
      List<String> gone =
          all.entrySet().stream()
              .filter(each -> !digests.contains(each.getKey()) && letGo.of(each.getValue()))
              .map(Map.Entry::getKey)
              .toList();
      archive.remove(gone);
      archive.analyse();
      return result(files, strangers, gone.size(), true);
    }
  }

  private static int sum(Map<String, Integer> counts) {
    return counts.values().stream().mapToInt(count -> count).sum();
  }

  private Map<String, Integer> strangers(Map<String, String> benches) {
    Map<String, Integer> strangers = new TreeMap<>();
    benches.forEach(
        (digest, bench) -> {
          if (!digests.contains(digest)) {
            strangers.merge(bench, 1, Integer::sum);
          }
        });
    return strangers;
  }

  private void fill(Archive archive, List<Path> files) throws ArchiveFault {
    List<ArchivedRun> batch = new ArrayList<>();
    for (int i = 0; i < files.size(); i++) {
      Taken taken = Taken.of(files.get(i), judge);
      counts.merge(taken.state(), 1, Integer::sum);
      if (taken.state() != Taken.State.SOUND) {
        flawed.add(new Taken(taken.file(), taken.state(), Optional.empty(), taken.detail()));
      }
      taken.run().filter(run -> digests.add(run.file().sha256())).ifPresent(batch::add);
      if (batch.size() >= BATCH) {
        added += archive.addAll(batch, true).size();
        batch.clear();
      }
      seen.taken(i + 1, files.size());
    }
    added += batch.isEmpty() ? 0 : archive.addAll(batch, true).size();
  }

  private Result result(
      List<Path> files, Map<String, Integer> strangers, int gone, boolean replaced) {
    return new Result(files.size(), added, counts, flawed, strangers, gone, replaced);
  }
}

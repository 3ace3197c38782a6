package org.benchstroke.archive;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.benchstroke.archive.ArchivedRun.Heading;
import org.benchstroke.record.Seal;

/**
 * The records of a folder as its listing shows them: names, and which have a seal or amendments
 * beside them. No file is opened. Immutable.
 *
 * @param folder where they are
 * @param records by name, the newest last
 */
public record FolderOfRecords(Path folder, NavigableMap<String, Beside> records) {
  private static final String RECORD_END = ".jsonl";
  private static final String SEAL_END = RECORD_END + ".seal";
  private static final String AMENDMENT = RECORD_END + ".amendment-";

  /**
   * What stands beside a record.
   *
   * @param sealed whether there is a seal
   * @param amendments how many
   */
  public record Beside(boolean sealed, int amendments) {}

  /**
   * Lists a folder.
   *
   * @throws ArchiveFault if it can't be listed
   */
  public static FolderOfRecords of(Path folder) throws ArchiveFault {
    NavigableMap<String, Beside> records = new TreeMap<>();
    Set<String> seals = new HashSet<>();
    Map<String, Integer> amendments = new HashMap<>();
    if (!Files.isDirectory(folder)) {
      throw new ArchiveFault(folder + ": is no folder; name one that holds records");
    }
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder)) {
      for (Path file : files) {
        String name = file.getFileName().toString();
        int at = name.indexOf(AMENDMENT);
        if (name.endsWith(RECORD_END)) {
          records.put(name, new Beside(false, 0));
        } else if (name.endsWith(SEAL_END)) {
          seals.add(stem(name, SEAL_END) + RECORD_END);
        } else if (at >= 0) {
          amendments.merge(name.substring(0, at) + RECORD_END, 1, Integer::sum);
        }
      }
    } catch (IOException e) {
      throw new ArchiveFault(
          ArchiveFault.Kind.FAILED, folder + ": can't be listed: " + e.getMessage(), e);
    }
    records.replaceAll(
        (name, none) -> new Beside(seals.contains(name), amendments.getOrDefault(name, 0)));
    return new FolderOfRecords(folder, records);
  }

  private static String stem(String name, String end) {
    return name.substring(0, name.length() - end.length());
  }

  /** All records, the oldest first. */
  public List<Path> files() {
    return records.keySet().stream().map(folder::resolve).toList();
  }

  /**
   * Those that the archive lacks, or knows otherwise, the newest first.
   *
   * @param looked how many of the newest are looked at
   * @param sizes whether the files' sizes are compared as well
   */
  public List<Path> missing(Archive archive, int looked, boolean sizes) throws ArchiveFault {
    List<String> newest = records.descendingKeySet().stream().limit(looked).toList();
    if (newest.isEmpty()) {
      return List.of();
    }
    String whole = folder.toAbsolutePath().normalize().toString();
    Map<String, Heading> there = archive.ofFolder(whole, newest.get(newest.size() - 1));
    List<Path> missing = new ArrayList<>();
    for (String name : newest) {
      Optional<Heading> known = Optional.ofNullable(there.get(name));
      Path file = folder.resolve(name);
      if (known.isEmpty()
          || !agrees(records.get(name), known.get())
          || (sizes && size(file) != known.get().file().bytes())) {
        missing.add(file);
      }
    }
    missing.sort(Comparator.reverseOrder());
    return missing;
  }

  private static boolean agrees(Beside beside, Heading known) {
    boolean unsealed = known.file().seal().equals(Seal.State.NOT_SEALED.text());
    // An amendment that doesn't hold is a flaw, and not counted among those that do.
    boolean amended =
        beside.amendments() == known.file().amendments()
            || (beside.amendments() > known.file().amendments() && known.file().flaws() > 0);
    return beside.sealed() != unsealed && amended;
  }

  private static long size(Path file) {
    try {
      return Files.size(file);
    } catch (IOException e) {
      return -1;
    }
  }
}

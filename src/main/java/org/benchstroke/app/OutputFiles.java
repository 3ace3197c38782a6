package org.benchstroke.app;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.core.files.WholeFile;
import org.benchstroke.papers.plot.SvgFile;

/**
 * The files that a command leaves; all of them go through here, but for the journal of a run and
 * the transcripts of its links, which grow and never replace a file. None takes the place of a file
 * that was given, of another one that the command leaves, of a link, a device or a folder, nor,
 * unless that was asked for, of anything but an older file of its own kind. One thread.
 */
public final class OutputFiles {
  private static final int LOOKED_AT = 20_000;

  private final boolean force;
  private final Map<Path, String> taken = new LinkedHashMap<>();

  /** What a file is, and by what its beginning is known; what has nothing is never known again. */
  public enum Kind {
    REPORT("report", "<meta name=\"generator\" content=\"benchstroke\">"),
    PAPER("paper", "<pdf:Producer>benchstroke<"),
    JUDGEMENT("judgement", "\"report\" : \"BS-"),
    SIMULATED_BENCH("bench file of a simulation", "\n[simulation]\n"),
    SCHEMA("schema", "\"$id\": \"urn:benchstroke:schema:"),
    UNITS("table of units", "report,began,serial,order,customer,"),
    MEASURES("table of measures", "report,serial,run,kind,title,"),
    CALIBRATION_XML("calibration certificate as XML", "<dcc:uniqueIdentifier>BS-"),
    PICTURE("picture", SvgFile.MARK),
    UNIT_TRUTH("unit's truth", "\"kind\" : \"unit truth\""),

    /** Samples look like those of any logger, which nobody can take again. */
    SAMPLES("file of samples", ""),
    RECORD("record", ""),
    FILE_TO_EDIT("file", "");

    private final String word;
    private final String mark;

    Kind(String word, String mark) {
      this.word = word;
      this.mark = mark;
    }

    private boolean isKnownBy(String beginning) {
      return !mark.isEmpty() && beginning.contains(mark);
    }
  }

  /** A place that may be written to. */
  public record Place(Path file) {
    /**
     * Writes the whole file, or leaves what is there.
     *
     * @throws WrongRequest if it can't be written
     */
    public void write(String text) throws WrongRequest {
      write(out -> out.write(text));
    }

    /** Likewise, bytes. */
    public void write(byte[] bytes) throws WrongRequest {
      try {
        WholeFile.write(file, bytes);
      } catch (IOException e) {
        throw WrongRequest.unwritable(file, e);
      }
    }

    /** Likewise, piece by piece. */
    public void write(WholeFile.Content content) throws WrongRequest {
      try {
        WholeFile.write(file, content);
      } catch (IOException e) {
        throw WrongRequest.unwritable(file, e);
      }
    }
  }

  /**
   * For a command.
   *
   * @param force whether a file of another kind may be replaced
   */
  public OutputFiles(boolean force) {
    this.force = force;
  }

  /** This file was given: nothing is written over it, however its name is written. */
  public OutputFiles given(String what, Path file) {
    taken.put(file, "is the " + what + " itself");
    return this;
  }

  public OutputFiles given(String what, Optional<Path> file) {
    file.ifPresent(path -> given(what, path));
    return this;
  }

  /**
   * Asks for a place, before anything is done.
   *
   * @param option the option that named it, for messages
   * @throws WrongRequest if something is there that must stay
   */
  public Place place(String option, Path file, Kind kind) throws WrongRequest {
    try {
      for (Map.Entry<Path, String> other : taken.entrySet()) {
        if (isSame(other.getKey(), file)) {
          throw new WrongRequest(
              file + ": " + other.getValue() + "; name another file" + by(option));
        }
      }
      if (Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
        requireReplaceable(option, file, kind);
      }
    } catch (IOException e) {
      throw WrongRequest.unwritable(file, e);
    }
    taken.put(file, "is written by " + (option.isEmpty() ? "this command" : option));
    return new Place(file);
  }

  public Optional<Place> place(String option, Optional<Path> file, Kind kind) throws WrongRequest {
    return file.isEmpty() ? Optional.empty() : Optional.of(place(option, file.get(), kind));
  }

  /**
   * A place beside this one whose name is free: what is there stays.
   *
   * @param file the name that is wanted; if it is taken, "-2" and so on is put before its end
   */
  public Place free(Path file) throws WrongRequest {
    String name = file.getFileName().toString();
    int dot = name.lastIndexOf('.');
    int end = dot > 0 ? dot : name.length();
    Path free = file;
    for (int i = 2; Files.exists(free, LinkOption.NOFOLLOW_LINKS); i++) {
      free = file.resolveSibling(name.substring(0, end) + "-" + i + name.substring(end));
    }
    return place("", free, Kind.FILE_TO_EDIT);
  }

  private void requireReplaceable(String option, Path file, Kind kind)
      throws WrongRequest, IOException {
    String another = "; name another file" + by(option);
    if (Files.isSymbolicLink(file)) {
      throw new WrongRequest(file + ": is a link; name the file that it leads to" + by(option));
    }
    if (Files.isDirectory(file)) {
      throw new WrongRequest(file + ": can't be written: it is a folder" + another);
    }
    if (!Files.isRegularFile(file)) {
      throw new WrongRequest(file + ": is a device or a pipe" + another);
    }
    if (!Files.isWritable(file)) {
      throw new WrongRequest(file + ": is write-protected" + another);
    }
    if (kind == Kind.RECORD) {
      throw new WrongRequest(file + ": exists, and a record is never replaced" + another);
    }
    if (!force && !kind.isKnownBy(beginning(file)) && Files.size(file) > 0) {
      String forced = option.isEmpty() ? "" : ", or add --force to replace it";
      throw new WrongRequest(
          file
              + ": exists, and is not an earlier "
              + kind.word
              + " of this program"
              + another
              + forced);
    }
  }

  private static String by(String option) {
    return option.isEmpty() ? "" : " with " + option;
  }

  private static boolean isSame(Path a, Path b) throws IOException {
    if (Files.exists(a) && Files.exists(b)) {
      return Files.isSameFile(a, b);
    }
    return a.toAbsolutePath().normalize().equals(b.toAbsolutePath().normalize());
  }

  private static String beginning(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return new String(in.readNBytes(LOOKED_AT), StandardCharsets.UTF_8).replace("\r", "");
    }
  }
}

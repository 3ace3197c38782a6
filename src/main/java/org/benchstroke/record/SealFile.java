package org.benchstroke.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalLong;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;
import org.benchstroke.core.files.WholeFile;
import org.benchstroke.record.signing.BenchKey;
import org.benchstroke.record.signing.SignedText;

/** The seal of a record: a file beside it, written once when the record is closed. Stateless. */
public final class SealFile {
  /** Version of what is stated. */
  private static final int FORMAT = 1;

  private static final String BEGIN = "{\"seal\":";

  /** Of a record of a million lines it has six megabytes. */
  private static final int MOST_BYTES = 64_000_000;

  private SealFile() {}

  /**
   * What a seal states.
   *
   * @param seal version of this format
   * @param record the record's name, without folders
   * @param bytes how many it has
   * @param lines how many it has
   * @param lastCheck the check value of the last of them: the head of its chain
   * @param sha256 of its bytes
   * @param marks see {@link RecordScan#marks}
   */
  private record Stated(
      int seal,
      String record,
      long bytes,
      long lines,
      String lastCheck,
      String sha256,
      String marks) {}

  /** The place of a record's seal. */
  public static Path of(Path record) {
    return record.resolveSibling(name(record) + ".seal");
  }

  static String name(Path record) {
    return record.toAbsolutePath().normalize().getFileName().toString();
  }

  /**
   * Seals a record that is closed.
   *
   * @throws IOException with the reason if it is not whole, or the seal can't be written
   */
  public static void write(Path record, BenchKey key) throws IOException {
    RecordScan scan;
    try {
      scan = RecordScan.of(record);
    } catch (Unreadable e) {
      throw new IOException("the record " + e.getMessage(), e);
    }
    if (scan.off().isPresent()) {
      throw new IOException("the record is damaged from line " + scan.off().getAsLong() + " on");
    }
    if (!closes(scan.lastLine())) {
      throw new IOException("the run was interrupted: the record has no closing line");
    }
    if (Files.exists(of(record), LinkOption.NOFOLLOW_LINKS)) {
      throw new IOException(of(record) + " is there already");
    }
    Stated stated =
        new Stated(
            FORMAT,
            name(record),
            scan.bytes(),
            scan.lines(),
            scan.lastCheck(),
            scan.sha256(),
            scan.marks());
    WholeFile.write(of(record), out -> out.write(SignedText.of(EventJson.text(stated), key)));
  }

  private static boolean closes(String line) {
    try {
      return EventJson.line(line).event() instanceof Event.Closed;
    } catch (JsonProcessingException | IllegalArgumentException e) {
      return false;
    }
  }

  /**
   * Holds a record against its seal, and without one against its own chain.
   *
   * @throws Unreadable if there is no such record
   * @throws IOException if it can't be read
   */
  public static Seal check(Path record) throws Unreadable, IOException {
    RecordScan scan = RecordScan.of(record);
    Seal seal = check(record, scan.sha256());
    boolean byChain = !seal.holds() && seal.line().isEmpty() && scan.off().isPresent();
    return byChain
        ? new Seal(seal.state(), seal.detail() + ", and " + chainEnds(scan), scan.off(), seal.key())
        : seal;
  }

  private static String chainEnds(RecordScan scan) {
    long line = scan.off().getAsLong();
    return scan.torn() && line > scan.lines()
        ? "line " + line + " is torn"
        : "line " + line + " does not follow from the lines before it";
  }

  /** Likewise, of a record whose digest is known already. */
  static Seal check(Path record, String sha256) throws IOException {
    if (Files.notExists(of(record))) {
      return Seal.none("there is no seal beside it");
    }
    try {
      Optional<SignedText> signed = SignedText.read(GivenFile.bytes(of(record), MOST_BYTES));
      return signed.isPresent()
          ? check(record, sha256, signed.get())
          : Seal.broken(
              "the seal itself was changed, or is not signed by the key that it names",
              OptionalLong.empty(),
              Optional.empty());
    } catch (Unreadable e) {
      return Seal.none("its seal " + e.getMessage());
    }
  }

  private static Seal check(Path record, String sha256, SignedText signed)
      throws Unreadable, IOException {
    if (signed.object().startsWith(BEGIN) && !signed.object().startsWith(BEGIN + FORMAT + ",")) {
      return Seal.none("its seal is of another version, which this program can't check");
    }
    Stated stated;
    try {
      stated = EventJson.read(signed.object(), Stated.class);
    } catch (JsonProcessingException e) {
      return Seal.broken(
          "the file in the place of its seal is another signed text",
          OptionalLong.empty(),
          Optional.of(signed.key()));
    }
    if (!stated.sha256().equals(sha256)) {
      return new Difference(RecordScan.of(record), stated).told(signed);
    }
    boolean renamed = !stated.record().equals(name(record));
    return new Seal(
        renamed ? Seal.State.RENAMED : Seal.State.SEALED,
        renamed ? "it was sealed as " + stated.record() : "",
        OptionalLong.empty(),
        Optional.of(signed.key()));
  }

  /** Where a record first differs from what was sealed. */
  private record Difference(RecordScan scan, Stated stated) {
    Seal told(SignedText signed) {
      long line = firstLine();
      return Seal.broken(
          how(line),
          line > 0 ? OptionalLong.of(line) : OptionalLong.empty(),
          Optional.of(signed.key()));
    }

    /** 0 if it can't be told. */
    private long firstLine() {
      String now = scan.marks();
      String then = stated.marks();
      int shared = Math.min(now.length(), then.length());
      for (int at = 0; at < shared; at += RecordScan.MARK) {
        if (!now.regionMatches(at, then, at, RecordScan.MARK)) {
          return at / RecordScan.MARK + 1L;
        }
      }
      return now.length() == then.length() && scan.off().isEmpty()
          ? 0
          : shared / RecordScan.MARK + 1L;
    }

    private String how(long line) {
      String sealed = ", and was sealed with " + stated.lines() + " lines";
      if (line == 0) {
        return "it was changed where its lines do not show it";
      }
      if (line > stated.lines()) {
        return "line " + line + " was added" + sealed;
      }
      if (line > scan.lines()) {
        return scan.torn()
            ? "it ends within line " + line + sealed
            : "line " + line + " and all after it were cut off" + sealed.replace(", and", ": it");
      }
      return scan.off().isPresent() && scan.off().getAsLong() == line
          ? "line " + line + " is not the one that was sealed"
          : "line " + line + " is not the one that was sealed, and its check value was made anew";
    }
  }
}

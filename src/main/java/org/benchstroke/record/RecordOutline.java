package org.benchstroke.record;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.DigestInputStream;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;

/**
 * What a record is, for those who judge nothing by it: its bytes were all read and held against its
 * seal, while of its lines only the first and the last were understood. Much cheaper than {@link
 * RecordReader}. Immutable.
 */
public final class RecordOutline {
  /** The opening line, where it came from and what it was for stand before everything else. */
  private static final int HEAD_LINES = 3;

  private static final int PIECE = 1 << 16;

  private final RunRecord head;
  private final Optional<Event.Closed> closed;
  private final Instant ended;

  private RecordOutline(RunRecord head, Optional<Event.Closed> closed, Instant ended) {
    this.head = head;
    this.closed = closed;
    this.ended = ended;
  }

  /**
   * Reads a record.
   *
   * @throws RecordReader.NotARecord if it does not begin like one, or can't be read
   */
  public static RecordOutline read(Path file) throws RecordReader.NotARecord {
    try (DigestInputStream digested = new DigestInputStream(GivenFile.open(file), Chain.sha256());
        InputStream in = new BufferedInputStream(digested, PIECE);
        FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      List<Entry> first = head(file, in);
      in.transferTo(OutputStream.nullOutputStream());
      String sha256 = HexFormat.of().formatHex(digested.getMessageDigest().digest());
      RunRecord head = beside(file, first, new RecordDigest(sha256, first.size(), ""));
      return ended(head, RecordHeading.lastLines(channel));
    } catch (Unreadable e) {
      throw new RecordReader.NotARecord(file + ": " + e.getMessage());
    } catch (IOException e) {
      throw new RecordReader.NotARecord(file + ": can't be read: " + e.getMessage());
    }
  }

  private static List<Entry> head(Path file, InputStream in)
      throws IOException, RecordReader.NotARecord {
    RecordLines lines = new RecordLines();
    List<Entry> entries = new ArrayList<>();
    try {
      while (entries.size() < HEAD_LINES) {
        entries.add(lines.read(line(in)));
      }
    } catch (RecordLines.BadLine e) {
      // Further down its seal tells of that.
      if (entries.isEmpty()) {
        throw new RecordReader.NotARecord(file + ": its first line: " + e.getMessage());
      }
    }
    if (!(entries.get(0).event() instanceof Event.Opened)) {
      throw new RecordReader.NotARecord(file + ": its first line is not that of a record");
    }
    return entries;
  }

  private static String line(InputStream in) throws IOException, RecordLines.BadLine {
    ByteArrayOutputStream line = new ByteArrayOutputStream();
    for (int next = in.read(); next != '\n'; next = in.read()) {
      if (next < 0) {
        throw new RecordLines.BadLine("its end is missing");
      }
      line.write(next);
    }
    return line.toString(StandardCharsets.UTF_8);
  }

  /** With what stands beside the file. */
  private static RunRecord beside(Path file, List<Entry> first, RecordDigest digest)
      throws IOException {
    Optional<RecordDigest> of = Optional.of(digest);
    Optional<Seal> seal = Optional.of(SealFile.check(file, digest.sha256()));
    RunRecord written = new RunRecord(first, List.of(), of, seal, Amendments.NONE);
    return new RunRecord(first, List.of(), of, seal, AmendmentFiles.read(file, written));
  }

  private static RecordOutline ended(RunRecord head, List<EventJson.Line> last) {
    Instant begun = head.entries().get(0).utc();
    if (last.isEmpty()) {
      return new RecordOutline(head, Optional.empty(), begun);
    }
    EventJson.Line end = last.get(last.size() - 1);
    Optional<Event.Closed> closed =
        end.event() instanceof Event.Closed c ? Optional.of(c) : Optional.empty();
    try {
      return new RecordOutline(head, closed, Instant.parse(end.utc()));
    } catch (DateTimeException e) {
      return new RecordOutline(head, closed, begun);
    }
  }

  /** SHA-256 of the file's bytes, 64 hexadecimal digits. */
  public String sha256() {
    return head.digest().orElseThrow().sha256();
  }

  public Event.Opened opened() {
    return head.opened();
  }

  /** What a label says, as amended; empty if nothing was typed. */
  public String label(Label label) {
    return head.label(label);
  }

  public Seal seal() {
    return head.seal().orElseThrow();
  }

  public Amendments amendments() {
    return head.amendments();
  }

  /** Whether it was recorded elsewhere. */
  public boolean imported() {
    return head.events(Event.Imported.class).findAny().isPresent();
  }

  /** When its first line was written, by the wall clock. */
  public Instant begun() {
    return head.entries().get(0).utc();
  }

  /** When its last whole line was written, by the wall clock. */
  public Instant ended() {
    return ended;
  }

  /** Its last line; empty if the run was interrupted. */
  public Optional<Event.Closed> closed() {
    return closed;
  }
}

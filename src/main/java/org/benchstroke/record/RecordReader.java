package org.benchstroke.record;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.Reader;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;

/** Reads records back. Stateless. */
public final class RecordReader {
  /** Far longer than the opening line with its files; a file that is no record has no line ends. */
  private static final int LONGEST_LINE = 32_000_000;

  private static final int CHARS_AT_ONCE = 1 << 16;

  private RecordReader() {}

  /**
   * Reads a record as far as it is whole and unchanged. A torn last line is dropped; at the first
   * line that is not what was written, reading ends. Either is told in {@link RunRecord#flaws()}.
   *
   * @throws NotARecord if there is no such file, it does not begin like a record, or it is one of
   *     another format
   */
  public static RunRecord read(Path file) throws NotARecord {
    List<Entry> entries = new ArrayList<>();
    List<String> flaws = new ArrayList<>();
    RecordLines lines = new RecordLines();
    String sha256;
    try (DigestInputStream bytes = new DigestInputStream(GivenFile.open(file), Chain.sha256());
        Reader reader = characters(bytes)) {
      LineCutter cutter = new LineCutter(reader);
      Optional<Line> line = cutter.next();
      while (line.isPresent()) {
        Optional<Line> following = cutter.next();
        try {
          entries.add(lines.read(line.get().whole()));
        } catch (RecordLines.OtherFormat e) {
          throw new NotARecord(file + ": can't be read: " + e.getMessage());
        } catch (RecordLines.BadLine e) {
          flaws.add(flaw(entries.size() + 1, following.isEmpty(), e.getMessage()));
          break;
        }
        line = following;
      }
      // The digest is that of the whole file, whatever could be taken of it.
      bytes.transferTo(OutputStream.nullOutputStream());
      sha256 = HexFormat.of().formatHex(bytes.getMessageDigest().digest());
    } catch (Unreadable e) {
      throw new NotARecord(file + ": " + e.getMessage());
    } catch (IOException e) {
      throw new NotARecord(file + ": can't be read: " + e.getMessage());
    }
    boolean begins = !entries.isEmpty() && entries.get(0).event() instanceof Event.Opened;
    if (!begins) {
      throw new NotARecord(
          file
              + ": is not a record of this program: "
              + (entries.isEmpty() && flaws.isEmpty()
                  ? "it is empty"
                  : "its first line is not that of one")
              + "; name a run's .jsonl file");
    }
    RecordDigest digest = new RecordDigest(sha256, lines.number(), lines.lastCheck());
    return attested(file, entries, flaws, digest);
  }

  /** With what stands beside the file. */
  private static RunRecord attested(
      Path file, List<Entry> entries, List<String> flaws, RecordDigest digest) throws NotARecord {
    try {
      Optional<RecordDigest> of = Optional.of(digest);
      Optional<Seal> seal = Optional.of(SealFile.check(file, digest.sha256()));
      RunRecord written = new RunRecord(entries, flaws, of, seal, Amendments.NONE);
      Amendments amendments = AmendmentFiles.read(file, written);
      return amendments.equals(Amendments.NONE)
          ? written
          : new RunRecord(entries, flaws, of, seal, amendments);
    } catch (IOException e) {
      throw new NotARecord(file + ": a file beside it can't be read: " + e.getMessage());
    }
  }

  /** A line and whether its line end came: without it, it was not written to its end. */
  private record Line(String text, boolean ended) {
    String whole() throws RecordLines.BadLine {
      if (!ended) {
        throw new RecordLines.BadLine("its end is missing");
      }
      return text;
    }
  }

  /** Cuts lines. Only the line end that is written counts: any other is a byte that was changed. */
  private static final class LineCutter {
    private final Reader reader;
    private final char[] chars = new char[CHARS_AT_ONCE];
    private int at;
    private int end;

    LineCutter(Reader reader) {
      this.reader = reader;
    }

    Optional<Line> next() throws IOException {
      StringBuilder text = new StringBuilder();
      while (there()) {
        int from = at;
        while (at < end && chars[at] != '\n') {
          at++;
        }
        if (text.length() + at - from > LONGEST_LINE) {
          return Optional.of(new Line("", false));
        }
        text.append(chars, from, at - from);
        if (at < end) {
          at++;
          return Optional.of(new Line(text.toString(), true));
        }
      }
      return text.isEmpty() ? Optional.empty() : Optional.of(new Line(text.toString(), false));
    }

    /** Whether there is another character. */
    private boolean there() throws IOException {
      if (at == end) {
        at = 0;
        end = Math.max(0, reader.read(chars));
      }
      return at < end;
    }
  }

  private static Reader characters(InputStream bytes) {
    // A kill may cut a character in two; the torn line is then dropped, not the file.
    var decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPLACE)
            .onUnmappableCharacter(CodingErrorAction.REPLACE);
    return new InputStreamReader(bytes, decoder);
  }

  private static String flaw(int line, boolean last, String why) {
    return last
        ? "the last line (" + line + ") is torn and was left out: " + why
        : "the record is damaged from line " + line + " on, which was left out: " + why;
  }

  /** A file that is no record. The message says which file and why. */
  public static final class NotARecord extends Exception {
    private static final long serialVersionUID = 1L;

    NotARecord(String message) {
      super(message);
    }
  }
}

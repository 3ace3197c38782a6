package org.benchstroke.record;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.OptionalLong;
import org.benchstroke.core.files.GivenFile;
import org.benchstroke.core.files.Unreadable;

/**
 * What the bytes of a record show, whatever its lines say: how far its chain holds.
 *
 * @param bytes how many
 * @param sha256 of all of them, 64 hexadecimal digits
 * @param lines how many line ends
 * @param off the first line that does not follow from those before it, or has no end; empty if none
 * @param torn whether the last line has no end
 * @param marks the first six hexadecimal digits of the check value of each line before that
 * @param lastCheck the last of those check values
 * @param lastLine the last line that has an end
 */
record RecordScan(
    long bytes,
    String sha256,
    long lines,
    OptionalLong off,
    boolean torn,
    String marks,
    String lastCheck,
    String lastLine) {
  /** Of each check value. */
  static final int MARK = 6;

  private static final byte[] CHECK = ",\"check\":\"".getBytes(StandardCharsets.US_ASCII);
  private static final int CHECK_DIGITS = 16;
  private static final int BLOCK = 1 << 16;
  private static final int TAIL = CHECK.length + CHECK_DIGITS + 2;

  /**
   * Reads a file to its end.
   *
   * @throws Unreadable if it is none
   * @throws IOException if it can't be read
   */
  static RecordScan of(Path file) throws Unreadable, IOException {
    try (InputStream opened = GivenFile.open(file);
        DigestInputStream bytes = new DigestInputStream(opened, Chain.sha256())) {
      return new Reading().all(bytes);
    }
  }

  /** Line after line. */
  private static final class Reading {
    private final Chain chain = new Chain();
    private final StringBuilder marks = new StringBuilder();
    private String previous = Chain.START;
    private byte[] lastLine = {};
    private OptionalLong off = OptionalLong.empty();
    private long lines;

    RecordScan all(DigestInputStream in) throws IOException {
      ByteArrayOutputStream line = new ByteArrayOutputStream();
      byte[] block = new byte[BLOCK];
      long count = 0;
      for (int read = in.read(block); read >= 0; read = in.read(block)) {
        count += read;
        int from = 0;
        for (int i = 0; i < read; i++) {
          if (block[i] == '\n') {
            line.write(block, from, i - from);
            take(line.toByteArray());
            line.reset();
            from = i + 1;
          }
        }
        line.write(block, from, read - from);
      }
      boolean torn = line.size() > 0;
      if (torn && off.isEmpty()) {
        off = OptionalLong.of(lines + 1);
      }
      String sha256 = HexFormat.of().formatHex(in.getMessageDigest().digest());
      String last = new String(lastLine, StandardCharsets.UTF_8);
      return new RecordScan(count, sha256, lines, off, torn, marks.toString(), previous, last);
    }

    private void take(byte[] line) {
      lines++;
      lastLine = line;
      if (off.isPresent()) {
        return;
      }
      String check = chain.next(previous, line, Math.max(0, line.length - TAIL));
      if (endsWith(line, check)) {
        previous = check;
        marks.append(check, 0, MARK);
      } else {
        off = OptionalLong.of(lines);
      }
    }

    private static boolean endsWith(byte[] line, String check) {
      byte[] tail = (",\"check\":\"" + check + "\"}").getBytes(StandardCharsets.US_ASCII);
      int from = line.length - tail.length;
      return from >= 0 && Arrays.equals(line, from, line.length, tail, 0, tail.length);
    }
  }
}

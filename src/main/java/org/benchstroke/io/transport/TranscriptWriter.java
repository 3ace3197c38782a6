package org.benchstroke.io.transport;

import java.io.BufferedWriter;
import java.io.IOException;
import java.util.HexFormat;
import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Writes one endpoint's transcript, a line for each step, each at once to the file. Safe for any
 * thread.
 */
final class TranscriptWriter {
  private static final Logger LOG = LoggerFactory.getLogger(TranscriptWriter.class);
  private static final long NANOS_PER_MILLI = 1_000_000L;
  private static final HexFormat HEX = HexFormat.ofDelimiter(" ");

  private final Endpoint endpoint;
  private final BenchClock clock;
  private Optional<BufferedWriter> file;
  private boolean open;

  /** When the last step was over, as a reader of the transcript reckons it. */
  private long sinceNanos;

  TranscriptWriter(Endpoint endpoint, BenchClock clock, Optional<BufferedWriter> file) {
    this.endpoint = endpoint;
    this.clock = clock;
    this.file = file;
    write("# " + endpoint.text() + ", captured " + clock.utc());
    if (endpoint instanceof Endpoint.Serial serial) {
      write("# " + serial.settings().text());
    }
  }

  Endpoint endpoint() {
    return endpoint;
  }

  synchronized boolean open() {
    return open;
  }

  synchronized void opened(long nanos) {
    open = true;
    sinceNanos = nanos;
    write("open");
  }

  /** The link could not be opened. */
  synchronized void refused() {
    write("gone");
  }

  synchronized void sent(byte[] bytes) {
    write("sent " + text(bytes, 0, bytes.length));
    sinceNanos = clock.nanos();
  }

  /**
   * Bytes have come. Whole milliseconds are counted from the step before as it was written, so that
   * what is cut off never adds up: the transcript is early by less than one, and never late.
   */
  synchronized void came(byte[] buffer, int offset, int count) {
    long millis = Math.max(0, (clock.nanos() - sinceNanos) / NANOS_PER_MILLI);
    sinceNanos += millis * NANOS_PER_MILLI;
    String delay = millis == 0 ? "" : "+" + millis + "ms ";
    write("came " + delay + text(buffer, offset, count));
  }

  synchronized void silence() {
    write("silence");
  }

  synchronized void gone() {
    write("gone");
  }

  synchronized void closed() {
    open = false;
    write("closed");
  }

  synchronized void close() {
    file.ifPresent(TranscriptWriter::closeQuietly);
    file = Optional.empty();
  }

  private void write(String line) {
    if (file.isEmpty()) {
      return;
    }
    try {
      BufferedWriter out = file.get();
      out.write(line);
      out.write('\n');
      out.flush();
    } catch (IOException e) {
      LOG.warn("the transcript of {} ends here: {}", endpoint.text(), e.getMessage());
      close();
    }
  }

  private static void closeQuietly(BufferedWriter out) {
    try {
      out.close();
    } catch (IOException e) {
      LOG.debug("a transcript failed to close", e);
    }
  }

  /** In quotes if people can read it, else in hexadecimal. */
  static String text(byte[] bytes, int offset, int count) {
    StringBuilder quoted = new StringBuilder("\"");
    for (int i = offset; i < offset + count; i++) {
      byte each = bytes[i];
      switch (each) {
        case '\n' -> quoted.append("\\n");
        case '\r' -> quoted.append("\\r");
        case '"', '\\' -> quoted.append('\\').append((char) each);
        default -> {
          if (each < ' ' || each > '~') {
            return HEX.formatHex(bytes, offset, offset + count);
          }
          quoted.append((char) each);
        }
      }
    }
    return quoted.append('"').toString();
  }
}

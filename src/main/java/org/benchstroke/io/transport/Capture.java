package org.benchstroke.io.transport;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Writes down what goes over the links that it opens: one transcript for each endpoint, in the form
 * of {@code docs/reference/transcripts.md}. A transcript that can't be written is given up with a
 * warning in the log; the link does not suffer. One thread opens links.
 */
public final class Capture implements LinkOpener, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Capture.class);
  private static final int MOST_FILES = 1000;

  private final Path folder;
  private final LinkOpener links;
  private final List<TranscriptWriter> writers = new ArrayList<>();

  private Capture(Path folder, LinkOpener links) {
    this.folder = folder;
    this.links = links;
  }

  /**
   * Captures into a folder, which is made if need be. What is there already stays: a name that is
   * taken gets a number.
   *
   * @throws IOException if there can't be such a folder, or nothing can be written into it
   */
  public static Capture into(Path folder, LinkOpener links) throws IOException {
    Files.createDirectories(folder);
    if (!Files.isWritable(folder)) {
      throw new IOException("nothing can be written into " + folder);
    }
    return new Capture(folder, links);
  }

  @Override
  public ByteLink open(Endpoint endpoint, Deadline deadline) throws LinkException {
    TranscriptWriter writer = writer(endpoint, deadline.clock());
    long began = deadline.clock().nanos();
    try {
      ByteLink link = links.open(endpoint, deadline);
      writer.opened(began);
      return new CapturedLink(link, writer);
    } catch (LinkException e) {
      writer.refused();
      throw e;
    }
  }

  /** An endpoint goes on in its file, unless a link to it is still open there. */
  private TranscriptWriter writer(Endpoint endpoint, BenchClock clock) {
    for (TranscriptWriter writer : writers) {
      if (writer.endpoint().equals(endpoint) && !writer.open()) {
        return writer;
      }
    }
    TranscriptWriter writer = new TranscriptWriter(endpoint, clock, file(endpoint));
    writers.add(writer);
    return writer;
  }

  private Optional<BufferedWriter> file(Endpoint endpoint) {
    String name = endpoint.text().replaceAll("[^A-Za-z0-9.]+", "-");
    try {
      for (int number = 1; number <= MOST_FILES; number++) {
        String suffix = number == 1 ? "" : "-" + number;
        Path file = folder.resolve(name + suffix + ".txt");
        try {
          return Optional.of(
              Files.newBufferedWriter(
                  file, StandardCharsets.US_ASCII, StandardOpenOption.CREATE_NEW));
        } catch (FileAlreadyExistsException taken) {
          LOG.debug("{} is taken", file);
        }
      }
      LOG.warn("no transcript of {}: {} holds too many", endpoint.text(), folder);
    } catch (IOException e) {
      LOG.warn("no transcript of {}: {}", endpoint.text(), e.getMessage());
    }
    return Optional.empty();
  }

  /** Closes the files. */
  @Override
  public void close() {
    writers.forEach(TranscriptWriter::close);
  }
}

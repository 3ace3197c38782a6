package org.benchstroke.core.files;

import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.UUID;

/** Writes files that are seen whole or not at all. Stateless. */
public final class WholeFile {
  private WholeFile() {}

  /** What is to stand in a file. */
  @FunctionalInterface
  public interface Content {
    void write(Writer out) throws IOException;
  }

  /** How a new file is made. */
  @FunctionalInterface
  private interface Made {
    FileChannel at(Path draft) throws IOException;
  }

  /** What is to stand in a file, as bytes. */
  @FunctionalInterface
  private interface Bytes {
    void write(OutputStream out) throws IOException;
  }

  /**
   * Writes a text, as UTF-8, beside its place, has the disk keep it, and moves it there. If that
   * fails, what was there stays as it was. A folder that is missing is made.
   *
   * @throws IOException if it can't be written
   */
  public static void write(Path file, Content content) throws IOException {
    written(
        file,
        out -> {
          Writer writer = new OutputStreamWriter(out, StandardCharsets.UTF_8);
          content.write(writer);
          writer.flush();
        });
  }

  /** Likewise, bytes. */
  public static void write(Path file, byte[] bytes) throws IOException {
    written(file, out -> out.write(bytes));
  }

  /**
   * Likewise, bytes that nobody but the file's owner may read, at any moment.
   *
   * @throws IOException if they can't be written
   */
  public static void writeForOwner(Path file, byte[] bytes) throws IOException {
    written(file, OwnerOnly::create, out -> out.write(bytes));
  }

  private static void written(Path file, Bytes content) throws IOException {
    // Not createTempFile: only its owner could read that, and a colleague must.
    written(
        file,
        draft -> FileChannel.open(draft, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE),
        content);
  }

  private static void written(Path file, Made made, Bytes content) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    Files.createDirectories(folder);
    Path draft = folder.resolve("." + UUID.randomUUID() + ".draft");
    try {
      try (FileChannel channel = made.at(draft)) {
        content.write(Channels.newOutputStream(channel));
        channel.force(true);
      }
      Files.move(draft, file, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(draft);
    }
  }
}

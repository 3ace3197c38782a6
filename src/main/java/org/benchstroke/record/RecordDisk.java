package org.benchstroke.record;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Objects;

/** The file of a record that is being written. The journal's thread only, but for the opening. */
final class RecordDisk implements DiskThread.Disk {
  private final Path file;
  private final FileChannel channel;

  /** Tells the file from another one at its place; the system may have no such key. */
  private final Object key;

  private RecordDisk(Path file, FileChannel channel, Object key) {
    this.file = file;
    this.channel = channel;
    this.key = key;
  }

  /**
   * Makes a new file, and its folder where that is missing.
   *
   * @throws IOException if it exists or can't be made
   */
  static RecordDisk create(Path file) throws IOException {
    Files.createDirectories(file.toAbsolutePath().getParent());
    FileChannel channel =
        FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    return new RecordDisk(file, channel, keyOf(file));
  }

  private static Object keyOf(Path file) throws IOException {
    Object key =
        Files.readAttributes(file, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS).fileKey();
    return Objects.requireNonNullElse(key, "no key");
  }

  @Override
  public void write(String line) throws IOException {
    ByteBuffer bytes = ByteBuffer.wrap(line.getBytes(StandardCharsets.UTF_8));
    while (bytes.hasRemaining()) {
      channel.write(bytes);
    }
  }

  /** Without its name the file vanishes with the program, and all that is forced with it. */
  @Override
  public void force() throws IOException {
    channel.force(false);
    try {
      if (!keyOf(file).equals(key)) {
        throw new IOException("another file was put in its place");
      }
    } catch (NoSuchFileException e) {
      throw new IOException("it was deleted or moved away", e);
    }
  }

  @Override
  public String name() {
    return file.toString();
  }

  @Override
  public void close() throws IOException {
    channel.close();
  }
}

package org.benchstroke.io.transport;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/**
 * Keeps addresses to one program at a time, whoever of this computer's users started it. Each
 * holder has a file of its own, which says who it is, and on which the system holds a lock for as
 * long as the program lives: what a dead one left behind holds nothing. Any thread.
 */
public final class AddressLocks implements AutoCloseable {
  /** Far behind the text, which others must be able to read: some systems lock reading, too. */
  private static final long LOCKED_BYTE = 1L << 40;

  private static final int LONGEST_WORDS = 500;
  private static final int TRIES = 20;
  private static final String END = ".lock";

  /** What this program holds, by key: the system's locks tell other programs apart only. */
  private static final Map<String, Lock> OURS = new HashMap<>();

  private record Lock(Path file, String words, FileChannel channel) {}

  /** An address is held by somebody else. The message says who, since when. */
  public static final class InUse extends Exception {
    private static final long serialVersionUID = 1L;

    private final transient Endpoint endpoint;

    InUse(Endpoint endpoint, String holder) {
      super(holder);
      this.endpoint = endpoint;
    }

    /** Which address. */
    public Endpoint endpoint() {
      return endpoint;
    }
  }

  private final List<String> keys = new ArrayList<>();

  private AddressLocks() {}

  /** The folder that all users of this computer share. */
  public static Path sharedFolder() {
    boolean windows = System.getProperty("os.name", "").toLowerCase(Locale.ROOT).contains("win");
    String all = windows ? Optional.ofNullable(System.getenv("ProgramData")).orElse("") : "/tmp";
    String place = all.isEmpty() ? System.getProperty("java.io.tmpdir", ".") : all;
    return Path.of(place, "benchstroke-addresses");
  }

  /**
   * Takes all addresses or none. A display is nobody's.
   *
   * @param holder who takes them, for what, since when: for whoever comes next
   * @throws InUse if somebody else has one
   * @throws IOException if the folder can't be used; nothing is held then
   */
  public static AddressLocks take(Path folder, Collection<Endpoint> endpoints, String holder)
      throws InUse, IOException {
    make(folder);
    AddressLocks locks = new AddressLocks();
    boolean all = false;
    try {
      for (Endpoint endpoint : endpoints) {
        Optional<String> key = LockKey.of(endpoint);
        if (key.isPresent() && !locks.keys.contains(key.get())) {
          locks.take(folder, endpoint, key.get(), holder);
        }
      }
      all = true;
      return locks;
    } finally {
      if (!all) {
        locks.close();
      }
    }
  }

  /** Nothing is held: there is nothing to hold, or no folder to hold it in. */
  public static AddressLocks none() {
    return new AddressLocks();
  }

  private void take(Path folder, Endpoint endpoint, String key, String holder)
      throws InUse, IOException {
    synchronized (OURS) {
      Lock ours = OURS.get(key);
      if (ours != null) {
        throw new InUse(endpoint, ours.words());
      }
      String begin = hash(key) + "-";
      Lock own = own(folder, begin, holder);
      OURS.put(key, own);
      keys.add(key);
      Optional<String> other = another(folder, begin, own.file());
      if (other.isPresent()) {
        throw new InUse(endpoint, other.get());
      }
    }
  }

  /** Whoever makes it lets everyone put files there and remove none but their own. */
  private static void make(Path folder) throws IOException {
    try {
      Files.createDirectory(folder);
      if (posix(folder)) {
        Files.setAttribute(folder, "unix:mode", 01777);
      }
    } catch (FileAlreadyExistsException e) {
      if (!Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)) {
        throw new IOException(folder + " is not a folder", e);
      }
    }
  }

  private static boolean posix(Path path) {
    return path.getFileSystem().supportedFileAttributeViews().contains("unix");
  }

  /** Makes our file and locks it; whoever looks just then may take it for a dead program's. */
  private static Lock own(Path folder, String begin, String words) throws IOException {
    for (int i = 0; i < TRIES; i++) {
      Path file = folder.resolve(begin + UUID.randomUUID() + END);
      FileChannel channel =
          FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      boolean held = false;
      try {
        if (posix(file)) {
          Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
        }
        channel.write(ByteBuffer.wrap(words.getBytes(StandardCharsets.UTF_8)));
        held = channel.tryLock(LOCKED_BYTE, 1, false) != null && Files.exists(file);
        if (held) {
          return new Lock(file, words, channel);
        }
      } catch (NoSuchFileException e) {
        // Taken for a dead program's before it was locked: another one.
        held = false;
      } finally {
        if (!held) {
          channel.close();
          Files.deleteIfExists(file);
        }
      }
    }
    throw new IOException(folder + " is too busy");
  }

  /** What the file of a living holder says; those of dead ones are cleared away. */
  private static Optional<String> another(Path folder, String begin, Path own) throws IOException {
    try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, begin + "*" + END)) {
      for (Path file : files) {
        if (!file.equals(own)) {
          Optional<String> words = living(file);
          if (words.isPresent()) {
            return words;
          }
        }
      }
    }
    return Optional.empty();
  }

  private static Optional<String> living(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      FileLock dead = channel.tryLock(LOCKED_BYTE, 1, true);
      if (dead == null) {
        return Optional.of(words(channel));
      }
      if (Files.isWritable(file)) {
        Files.deleteIfExists(file);
      }
      return Optional.empty();
    } catch (NoSuchFileException e) {
      return Optional.empty();
    }
  }

  private static String words(FileChannel channel) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(LONGEST_WORDS);
    int count = Math.max(0, channel.read(bytes, 0));
    String text = new String(bytes.array(), 0, count, StandardCharsets.UTF_8);
    // Others wrote it: no more than a line that a terminal can show.
    return text.replaceAll("\\p{Cntrl}", " ").strip();
  }

  private static String hash(String key) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(key.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(digest, 0, 8);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /** Gives all back; may be repeated. */
  @Override
  public void close() {
    synchronized (OURS) {
      for (String key : keys) {
        Lock held = OURS.remove(key);
        try {
          held.channel().close();
          Files.deleteIfExists(held.file());
        } catch (IOException e) {
          // The lock goes with the program, if not before.
        }
      }
      keys.clear();
    }
  }
}

package org.benchstroke.core.files;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Locale;

/**
 * Reads files that a person named: regular files only, since a pipe may never end and a device
 * never does, and no more of them than their kind can hold. Stateless.
 */
public final class GivenFile {
  private static final char MARK = '\uFEFF';
  private static final int LOOKED_AT = 64;

  private GivenFile() {}

  /**
   * Opens a file.
   *
   * @throws Unreadable if there is none, or it is no regular file
   */
  public static InputStream open(Path path) throws Unreadable {
    try {
      BasicFileAttributes found = Files.readAttributes(path, BasicFileAttributes.class);
      if (found.isDirectory()) {
        throw new Unreadable("is a folder; name a file");
      }
      if (!found.isRegularFile()) {
        throw new Unreadable("is a pipe or a device; save what it gives in a file and name that");
      }
      return Files.newInputStream(path);
    } catch (IOException e) {
      throw new Unreadable(why(e));
    }
  }

  /**
   * The bytes of a file.
   *
   * @param most how many it may have
   * @throws Unreadable if it can't be read, or has more
   */
  public static byte[] bytes(Path path, int most) throws Unreadable {
    try (InputStream in = open(path)) {
      byte[] bytes = in.readNBytes(most + 1);
      if (bytes.length > most) {
        throw new Unreadable("is larger than " + size(most) + "; no file of this kind is so large");
      }
      return bytes;
    } catch (IOException e) {
      throw new Unreadable(why(e));
    }
  }

  /**
   * UTF-8 as text, without the byte order mark that some editors put in front.
   *
   * @throws Unreadable if it is another encoding, which is named where it shows, or no text
   */
  public static String text(byte[] bytes) throws Unreadable {
    String other = otherEncoding(bytes);
    if (!other.isEmpty()) {
      throw new Unreadable("is " + other + " text; save it as UTF-8");
    }
    try {
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      return !text.isEmpty() && text.charAt(0) == MARK ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw new Unreadable("is not UTF-8 text; save it as UTF-8");
    }
  }

  /** By its byte order mark, or by the zeros that Latin letters have in it. */
  private static String otherEncoding(byte[] bytes) {
    if (starts(bytes, 0xFF, 0xFE, 0, 0) || starts(bytes, 0, 0, 0xFE, 0xFF)) {
      return "UTF-32";
    }
    if (starts(bytes, 0xFF, 0xFE) || starts(bytes, 0xFE, 0xFF)) {
      return "UTF-16";
    }
    int zeros = 0;
    int looked = Math.min(bytes.length, LOOKED_AT);
    for (int i = 0; i < looked; i++) {
      zeros += bytes[i] == 0 ? 1 : 0;
    }
    boolean wide = looked >= 8 && zeros >= looked / 3 && zeros < looked;
    return !wide ? "" : zeros > looked * 5 / 8 ? "UTF-32" : "UTF-16";
  }

  private static boolean starts(byte[] bytes, int... mark) {
    for (int i = 0; i < mark.length; i++) {
      if (i >= bytes.length || (bytes[i] & 0xFF) != mark[i]) {
        return false;
      }
    }
    return true;
  }

  private static String why(IOException e) {
    if (e instanceof NoSuchFileException) {
      return "there is no such file; check the name and the folder";
    }
    if (e instanceof AccessDeniedException) {
      return "may not be read; ask its owner for the permission";
    }
    String reason = e instanceof FileSystemException system ? system.getReason() : e.getMessage();
    return "can't be read: " + (reason == null ? e.getClass().getSimpleName() : reason);
  }

  private static String size(int bytes) {
    return bytes >= 1_000_000
        ? String.format(Locale.ROOT, "%d MB", bytes / 1_000_000)
        : String.format(Locale.ROOT, "%d kB", bytes / 1000);
  }
}

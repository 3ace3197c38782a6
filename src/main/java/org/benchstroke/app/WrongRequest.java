package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Path;

/** The request can't be done as it was put; the message says why and what to do. */
public final class WrongRequest extends Exception {
  private static final long serialVersionUID = 1L;
  private static final int LONGEST_WORDS = 200;

  public WrongRequest(String message) {
    super(message);
  }

  /** Requires that an option says something, and no more than a line of it. */
  public static void requireWords(String option, String text) throws WrongRequest {
    if (text.isBlank() || text.length() > LONGEST_WORDS) {
      throw new WrongRequest(
          option
              + ": allowed is a text that is not blank, of up to "
              + LONGEST_WORDS
              + " characters");
    }
  }

  /** A file that can't be written where it was wanted. */
  public static WrongRequest unwritable(Path file, IOException e) {
    String why =
        e instanceof FileSystemException system && system.getReason() != null
            ? system.getReason()
            : e instanceof FileAlreadyExistsException ? "a file is in its way" : e.getMessage();
    return new WrongRequest(file + ": can't be written: " + why + "; name another place");
  }
}

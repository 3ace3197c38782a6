package org.benchstroke.cli;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Path;

/** The request can't be done as it was put; the message says why and what to do. */
final class WrongRequest extends Exception {
  private static final long serialVersionUID = 1L;

  WrongRequest(String message) {
    super(message);
  }

  /** A file that can't be written where it was wanted. */
  static WrongRequest unwritable(Path file, IOException e) {
    String why =
        e instanceof FileSystemException system && system.getReason() != null
            ? system.getReason()
            : e instanceof FileAlreadyExistsException ? "a file is in its way" : e.getMessage();
    return new WrongRequest(file + ": can't be written: " + why + "; name another place");
  }
}

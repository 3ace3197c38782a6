package org.benchstroke.core.files;

/** A file that can't be taken. The message says why and what to do, without the file's name. */
public final class Unreadable extends Exception {
  private static final long serialVersionUID = 1L;

  Unreadable(String message) {
    super(message);
  }
}

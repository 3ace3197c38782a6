package org.benchstroke.cli;

/** The request can't be done as it was put; the message says why and what to do. */
final class WrongRequest extends Exception {
  private static final long serialVersionUID = 1L;

  WrongRequest(String message) {
    super(message);
  }
}

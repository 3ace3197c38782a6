package org.benchstroke.web;

import java.util.Optional;

/**
 * What is sent to one browser as it happens. It is asked from one thread, that of the browser's
 * connection: a slow browser holds up nobody else. What it missed meanwhile is left out, and what
 * is sent next is how things stand then.
 */
public interface Feed extends AutoCloseable {
  /**
   * A piece of news.
   *
   * @param kind what a script listens to; letters and hyphens
   * @param data one line, usually JSON
   */
  record News(String kind, String data) {}

  /**
   * Waits for the next news, at most for a time; empty if there was none.
   *
   * @throws InterruptedException if the screen closes
   */
  Optional<News> next(long patienceMillis) throws InterruptedException;

  /** The browser is gone. */
  @Override
  void close();
}

package org.benchstroke.web.access;

import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;

/** A browser in which somebody is signed in. Any thread. */
public final class Session {
  private final String id;
  private final String who;
  private final String proof;
  private final long beganNanos;
  private final AtomicLong lastNanos;
  private final AtomicInteger live = new AtomicInteger();

  Session(String id, String who, String proof, long nowNanos) {
    this.id = id;
    this.who = who;
    this.proof = proof;
    this.beganNanos = nowNanos;
    this.lastNanos = new AtomicLong(nowNanos);
  }

  /** What the browser's cookie holds. */
  String id() {
    return id;
  }

  /** The name of whoever signed in. */
  public String who() {
    return who;
  }

  /** The hash that their secret was compared with; empty if they only said their name. */
  String proof() {
    return proof;
  }

  /** When it began, bench time. */
  long beganNanos() {
    return beganNanos;
  }

  /** When it was last used, bench time. */
  long lastNanos() {
    return lastNanos.get();
  }

  void used(long nowNanos) {
    lastNanos.set(nowNanos);
  }

  /** How many live pages it has open. */
  AtomicInteger live() {
    return live;
  }

  /** Whether a page of it is open and sees live data. */
  public boolean isWatching() {
    return live.get() > 0;
  }

  /** Without its id: whoever has that is signed in. */
  @Override
  public String toString() {
    return "session of " + who;
  }
}

package org.benchstroke.web.access;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import org.benchstroke.core.clock.BenchClock;

/**
 * The browsers in which somebody is signed in: in memory only, so that a restart signs everybody
 * out. A session ends when nobody has used it for an hour, unless a page of it is open and sees
 * live data; and after twelve, a long shift, in any case. Any thread.
 */
public final class Sessions {
  private static final long IDLE_NANOS = TimeUnit.HOURS.toNanos(1);
  private static final long LONGEST_NANOS = TimeUnit.HOURS.toNanos(12);

  /** Of one name. Beyond that the one that was used longest ago ends. */
  private static final int MOST_OF_A_NAME = 16;

  private final BenchClock clock;
  private final Map<String, Session> byId = new ConcurrentHashMap<>();

  public Sessions(BenchClock clock) {
    this.clock = clock;
  }

  /**
   * Signs somebody in, under an id that no browser has had before.
   *
   * @param who the name
   * @param proof the hash that their secret was compared with; empty if there was none
   */
  synchronized Session open(String who, String proof) {
    byId.values().removeIf(this::isOver);
    List<Session> same =
        byId.values().stream()
            .filter(s -> NamedOperator.key(s.who()).equals(NamedOperator.key(who)))
            .sorted(Comparator.comparingLong(Session::lastNanos))
            .toList();
    for (int i = 0; i <= same.size() - MOST_OF_A_NAME; i++) {
      byId.remove(same.get(i).id());
    }
    Session session = new Session(Ids.fresh(), who, proof, clock.nanos());
    byId.put(session.id(), session);
    return session;
  }

  /** The session of a cookie, if it goes on; it then counts as used. */
  Optional<Session> find(String id) {
    Optional<Session> found = Optional.ofNullable(byId.get(id));
    if (found.isPresent() && isOver(found.get())) {
      byId.remove(id);
      return Optional.empty();
    }
    found.ifPresent(session -> session.used(clock.nanos()));
    return found;
  }

  /** Whether it goes on; it doesn't count as used by that. */
  public boolean goesOn(Session session) {
    return byId.get(session.id()) == session && !isOver(session);
  }

  private boolean isOver(Session session) {
    long now = clock.nanos();
    boolean idle = !session.isWatching() && now - session.lastNanos() > IDLE_NANOS;
    return idle || now - session.beganNanos() > LONGEST_NANOS;
  }

  /** A live page of it was closed: from now on it may become idle. */
  void watchedOnce(Session session) {
    session.used(clock.nanos());
    session.live().decrementAndGet();
  }

  /** Signs out. */
  void end(Session session) {
    byId.remove(session.id());
  }

  /** Those that go on, in the order in which they began. */
  public List<Session> all() {
    return byId.values().stream()
        .filter(session -> !isOver(session))
        .sorted(Comparator.comparingLong(Session::beganNanos))
        .toList();
  }
}

package org.benchstroke.jobs;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * All attempts at one unit of one order, in the order of their dates. Simulated ones are a job of
 * their own: they prove nothing about a real unit of the same number. Immutable.
 *
 * @param key what it is told by
 * @param simulated whether its attempts are simulated
 * @param attempts all of them, the first first; at least one
 */
public record Job(JobKey key, boolean simulated, List<Attempt> attempts) {
  /**
   * After so many attempts a supervisor allows the next: who measures often enough finds a run that
   * passes. Own choice.
   */
  public static final int ATTEMPTS_ALONE = 5;

  private static final Comparator<Attempt> BY_DATE =
      Comparator.comparing(Attempt::begun).thenComparing(Attempt::record);

  /**
   * One job.
   *
   * @throws IllegalArgumentException if there is no attempt, or one is of another job
   */
  public Job {
    attempts = attempts.stream().sorted(BY_DATE).toList();
    if (attempts.isEmpty()) {
      throw new IllegalArgumentException("a job has at least one attempt");
    }
    for (Attempt attempt : attempts) {
      if (attempt.simulated() != simulated || !attempt.key().equals(Optional.of(key))) {
        throw new IllegalArgumentException(attempt.record() + " is no attempt of this job");
      }
    }
  }

  /** What makes one job. */
  private record Kind(JobKey key, boolean simulated) {}

  /** The jobs of these attempts, the oldest first; those without order or serial are in none. */
  public static List<Job> of(Collection<Attempt> attempts) {
    Map<Kind, List<Attempt>> kinds = new LinkedHashMap<>();
    attempts.stream()
        .sorted(BY_DATE)
        .forEach(
            attempt ->
                attempt
                    .key()
                    .map(key -> new Kind(key, attempt.simulated()))
                    .ifPresent(
                        kind -> kinds.computeIfAbsent(kind, k -> new ArrayList<>()).add(attempt)));
    return kinds.entrySet().stream()
        .map(each -> new Job(each.getKey().key(), each.getKey().simulated(), each.getValue()))
        .toList();
  }

  /**
   * How the unit was found: the first whole attempt. Once there is one it stays that, whatever
   * follows: nobody chooses it, and no later attempt takes its place.
   */
  public Optional<Attempt> asFound() {
    return whole().stream().findFirst();
  }

  /**
   * How the unit was left: the last whole attempt, which is also the first one where there is one
   * only. It is not the best one.
   */
  public Optional<Attempt> asLeft() {
    return whole().stream().reduce((before, after) -> after);
  }

  private List<Attempt> whole() {
    return attempts.stream().filter(Attempt::whole).toList();
  }

  /** Those that were not whole; each has its reason. They count as attempts all the same. */
  public List<Attempt> notWhole() {
    return attempts.stream().filter(attempt -> !attempt.whole()).toList();
  }

  /**
   * Whether it passed as it was found. A conditional pass is no first-pass pass: a shop that counts
   * it as one counts by the word of {@link #asFound()}, and says so.
   */
  public boolean firstPass() {
    return asFound().filter(Attempt::passed).isPresent();
  }

  /**
   * Whether a further attempt wants a supervisor's word. A simulated unit can be tried for ever.
   */
  public boolean needsSupervisor() {
    return needsSupervisor(attempts.size(), simulated);
  }

  /** The same of a job of so many attempts. */
  public static boolean needsSupervisor(int attempts, boolean simulated) {
    return !simulated && attempts >= ATTEMPTS_ALONE;
  }
}

package org.benchstroke.counts;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.benchstroke.aids.diagnosis.Cause;
import org.benchstroke.aids.diagnosis.Likelihoods.Kind;
import org.benchstroke.simulator.practice.Fault;
import org.benchstroke.simulator.practice.FaultDraw;
import org.benchstroke.simulator.practice.Severity;

/** Which units are drawn: those that count the likelihoods, and those that are held out. */
final class DrawnSets {
  private static final int COUNTING = 16;
  private static final int SOUND_COUNTING = 400;
  private static final int HELD = 6;
  private static final int SOUND_HELD = 300;
  private static final int PAIRS_HELD = 500;

  /** Held-out seeds; no other number of the program is the same. */
  private static final long HELD_FROM = 700_000L;

  private static final List<Severity> COUNTED =
      List.of(Severity.BELOW, Severity.BARELY, Severity.MODERATE, Severity.CLEAR, Severity.LARGE);

  private static final List<Severity> HELD_SIZES =
      List.of(
          Severity.BARELY,
          Severity.MODERATE,
          Severity.CLEAR,
          Severity.ONCE,
          Severity.TWICE,
          Severity.THRICE);

  /** What a bench lacks. */
  enum Lacks {
    NOTHING("", Set.of()),
    LOOP_METER("no loop meter", Set.of("loop meter")),
    ALL_BUT_FEEDBACK(
        "feedback and switches alone", Set.of("loop meter", "angle reference", "supply meter"));

    private final String words;

    @SuppressWarnings("ImmutableEnumChecker") // a Set.of never changes
    private final Set<String> instruments;

    Lacks(String words, Set<String> instruments) {
      this.words = words;
      this.instruments = instruments;
    }

    String words() {
      return words;
    }

    Set<String> instruments() {
      return instruments;
    }
  }

  /** A unit to be drawn; no fault is a sound one. */
  record Drawn(List<Fault> faults, Lacks lacks, long seed) {
    Kind kind() {
      if (faults.isEmpty()) {
        return new Kind(Cause.HEALTHY, "sound", true);
      }
      Fault fault = faults.get(0);
      String form = FaultDraw.forms(fault.cause()).get(fault.form());
      String words = fault.severity().words() + (form.isEmpty() ? "" : ", " + form);
      return new Kind(fault.cause(), words, lacks == Lacks.NOTHING);
    }

    String id() {
      String hidden =
          faults.stream()
              .map(f -> f.cause() + "/" + f.form() + "/" + f.severity())
              .collect(Collectors.joining("+"));
      return hidden + "@" + lacks + "#" + seed;
    }
  }

  private DrawnSets() {}

  static List<Drawn> counting(double share) {
    List<Drawn> all = new ArrayList<>();
    for (Cause cause : faults()) {
      boolean graded = FaultDraw.graded(cause);
      for (int form = 0; form < FaultDraw.forms(cause).size(); form++) {
        for (Severity severity : graded ? COUNTED : List.of(Severity.CLEAR)) {
          Fault fault = new Fault(cause, form, severity);
          int many = part(graded ? COUNTING : 2 * COUNTING, share);
          add(all, fault, Lacks.NOTHING, many, 10_000L * number(severity));
          if (sameWithoutLoopMeter(fault)) {
            add(all, fault, Lacks.LOOP_METER, many, 10_000L * number(severity));
          }
        }
      }
    }
    for (int i = 0; i < part(SOUND_COUNTING, share); i++) {
      all.add(new Drawn(List.of(), Lacks.NOTHING, i));
    }
    return all;
  }

  private static int number(Severity severity) {
    return List.of(Severity.values()).indexOf(severity);
  }

  /** With a loop meter the preflight ends the run; without one it shows something else. */
  private static boolean sameWithoutLoopMeter(Fault fault) {
    return fault.cause() == Cause.LOOP_RESISTANCE
        || (fault.cause() == Cause.INSTRUMENT_OFF && fault.form() == 0);
  }

  static List<Drawn> heldOut(double share) {
    List<Drawn> all = new ArrayList<>();
    for (Cause cause : faults()) {
      for (Severity severity : FaultDraw.graded(cause) ? HELD_SIZES : List.of(Severity.CLEAR)) {
        for (int i = 0; i < part(HELD, share); i++) {
          long seed = HELD_FROM + 1_000L * number(severity) + i;
          all.add(new Drawn(List.of(Fault.of(cause, severity, seed)), Lacks.NOTHING, seed));
        }
      }
      for (int i = 0; i < part(HELD, share); i++) {
        long seed = HELD_FROM + 20_000L + i;
        boolean seen = cause != Cause.INSTRUMENT_OFF; // a loop meter that is not there is not off
        Fault fault =
            seen ? Fault.of(cause, Severity.CLEAR, seed) : new Fault(cause, 0, Severity.CLEAR);
        all.add(new Drawn(List.of(fault), Lacks.ALL_BUT_FEEDBACK, seed));
      }
    }
    pairs(all, part(PAIRS_HELD, share), HELD_FROM + 40_000L);
    for (int i = 0; i < part(SOUND_HELD, share); i++) {
      all.add(new Drawn(List.of(), Lacks.NOTHING, HELD_FROM + 80_000L + i));
    }
    // So that a count that was stopped is a fair part of the whole.
    Collections.shuffle(all, new Random(HELD_FROM));
    return all;
  }

  /** Any two faults of a unit that can be there at once, each moderate or clear. */
  static void pairs(List<Drawn> all, int many, long from) {
    Random random = new Random(from);
    List<Cause> causes = FaultDraw.ofTheUnit();
    for (int i = 0; i < many; ) {
      Fault one = any(causes, random, from + i);
      Fault other = any(causes, random, from + i + 1);
      if (FaultDraw.together(one, other)) {
        all.add(new Drawn(List.of(one, other), Lacks.NOTHING, from + i));
        i++;
      }
    }
  }

  private static Fault any(List<Cause> causes, Random random, long seed) {
    Severity severity = random.nextBoolean() ? Severity.CLEAR : Severity.MODERATE;
    return Fault.of(causes.get(random.nextInt(causes.size())), severity, seed);
  }

  private static List<Cause> faults() {
    return FaultDraw.causes().stream().filter(c -> c != Cause.HEALTHY).toList();
  }

  private static void add(List<Drawn> all, Fault fault, Lacks lacks, int many, long from) {
    for (int i = 0; i < many; i++) {
      all.add(new Drawn(List.of(fault), lacks, from + i));
    }
  }

  private static int part(int many, double share) {
    return (int) Math.max(1, Math.round(many * share));
  }
}

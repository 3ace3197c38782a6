package org.benchstroke.commission;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.benchstroke.bench.BenchFile;
import org.benchstroke.bench.InstrumentSpec;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Deadline;
import org.benchstroke.core.quantity.SignalRange;
import org.benchstroke.io.instrument.Instrument;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.Role;
import org.benchstroke.io.transport.LinkOpener;
import org.benchstroke.run.Bench;
import org.benchstroke.run.BenchAssembly;
import org.benchstroke.run.Identification;
import org.benchstroke.run.Operator;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.unit.UnitType;

/**
 * Opens every instrument of a bench, asks each who it is, reads each role once a sample period and
 * judges what it saw. Sources nothing and switches nothing. One thread.
 */
public final class Survey implements AutoCloseable {
  /** What a sample of a run reads, once a period. */
  private static final Set<Role> SAMPLED =
      Set.of(Role.POSITION_TRANSMITTER, Role.ANGLE_REFERENCE, Role.SWITCHES);

  private final BenchFile file;
  private final Optional<UnitType> unit;
  private final BenchClock clock;
  private final Bench bench;
  private final List<WatchedRole> roles = new ArrayList<>();
  private final Map<String, Identification> identities = new LinkedHashMap<>();
  private final Map<String, String> unreachable = new LinkedHashMap<>();
  private final List<Double> sampleSeconds = new ArrayList<>();

  /**
   * Opens nothing yet.
   *
   * @param unit gives the range of the feedback; without it a position in mA stays in mA
   */
  public Survey(BenchFile file, Optional<UnitType> unit, LinkOpener links, BenchClock clock) {
    SignalRange feedback = unit.map(UnitType::feedback).orElse(SignalRange.FOUR_TO_TWENTY);
    this.file = file;
    this.unit = unit;
    this.clock = clock;
    this.bench = BenchAssembly.of(file, feedback, links, clock, Operator.NOBODY);
    RoleQuestions questions = new RoleQuestions(file, unit, feedback, bench, clock);
    Map<String, Instrument> instruments = new HashMap<>();
    bench.instruments().forEach(each -> instruments.put(each.name(), each));
    for (InstrumentSpec spec : file.instruments()) {
      if (spec.typedIn()) {
        continue;
      }
      Instrument instrument = instruments.get(spec.name());
      for (Role role : spec.roles()) {
        roles.add(new WatchedRole(instrument, role, questions.of(role, instrument), clock));
      }
    }
  }

  /** Opens and identifies each instrument; a failure is noted and told with the verdicts. */
  public void open() {
    for (Instrument instrument : bench.instruments()) {
      try {
        instrument.connect(deadline());
        identities.put(
            instrument.name(),
            Identification.of(file, instrument, instrument.identify(deadline())));
      } catch (InstrumentException e) {
        unreachable.put(instrument.name(), e.getMessage());
      }
    }
  }

  /**
   * Reads every role once a sample period.
   *
   * @param wallSeconds for how long, s of wall time; at least one round is made
   * @param shown gets the states after each round
   */
  public void watch(double wallSeconds, StopSwitch stop, Consumer<List<RoleState>> shown)
      throws InterruptedException {
    long end = clock.wallNanos() + (long) (wallSeconds * 1e9);
    long period = (long) (file.samplePeriodSeconds() * 1e9);
    long next = clock.nanos();
    do {
      round();
      shown.accept(states());
      next = Math.max(next + period, clock.nanos());
      clock.waitUntil(next);
    } while (clock.wallNanos() < end && !stop.isStopping());
  }

  private void round() {
    double sampled = 0.0;
    for (WatchedRole role : roles) {
      long before = clock.nanos();
      role.ask(deadline());
      if (SAMPLED.contains(role.role())) {
        sampled += (clock.nanos() - before) / 1e9;
      }
    }
    sampleSeconds.add(sampled);
  }

  /** The roles in the bench file's order. */
  public List<RoleState> states() {
    return roles.stream().map(WatchedRole::state).toList();
  }

  /** Who each instrument says it is, by its name; one that did not answer is missing. */
  public Map<String, Identification> identities() {
    return Map.copyOf(identities);
  }

  /** Judges what was seen so far. */
  public List<RoleVerdict> verdicts() {
    SurveyJudge judge = new SurveyJudge(file, unit, identities, unreachable, usualSample(), clock);
    List<RoleVerdict> verdicts = new ArrayList<>(roles.stream().map(judge::judge).toList());
    file.instruments().stream()
        .filter(InstrumentSpec::typedIn)
        .forEach(spec -> spec.roles().forEach(role -> verdicts.add(byEye(spec, role))));
    return List.copyOf(verdicts);
  }

  private static RoleVerdict byEye(InstrumentSpec spec, Role role) {
    return new RoleVerdict(spec.name(), role, true, "read by eye and typed in: nothing to probe");
  }

  /** How long a sample usually took: the median, s of bench time. */
  private double usualSample() {
    return sampleSeconds.stream()
        .sorted(Comparator.naturalOrder())
        .skip(sampleSeconds.size() / 2)
        .findFirst()
        .orElse(0.0);
  }

  @Override
  public void close() {
    bench.close();
  }

  private Deadline deadline() {
    return Deadline.inWall(clock, bench.replyNanos());
  }
}

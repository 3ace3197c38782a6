package org.benchstroke.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.clock.Stopwatch;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.setup.SetUpAnswer;
import org.benchstroke.setup.SetUpState;
import org.benchstroke.setup.StepKey;
import org.benchstroke.simulator.practice.SetUpHands;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A set-up with a thread of its own that owns the bench, for faces that come and go. Nobody is
 * waited for; whoever watches reads {@link #state}. While the unit has power and nobody has watched
 * for a while, it ends with the safe signal. All methods may be called from any thread.
 */
public final class SetUpDesk implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(SetUpDesk.class);
  private static final long LONGEST_ANSWER_SECONDS = 10;
  private static final long LONGEST_END_MILLIS = 15_000;

  /** So long a unit with power is not left to itself. Own choice. */
  private static final long ALONE_NANOS = 60_000_000_000L;

  private final SettingUp settingUp;
  private final Ground ground;
  private final SettingUp.Begun begun;
  private final Consumer<Path> seal;
  private final StopSwitch stop;
  private final Optional<SetUpHands> hands;
  private final BlockingQueue<Given> given = new LinkedBlockingQueue<>();
  private final Thread thread;
  private volatile Optional<StepKey> helped = Optional.empty();
  private volatile Stopwatch watched = new Stopwatch();
  private long version;

  /** An answer on its way. */
  private record Given(long number, SetUpAnswer answer, CompletableFuture<SetUpState> came) {}

  private SetUpDesk(
      SettingUp settingUp,
      Ground ground,
      SettingUp.Begun begun,
      Consumer<Path> seal,
      StopSwitch stop) {
    this.settingUp = settingUp;
    this.ground = ground;
    this.begun = begun;
    this.seal = seal;
    this.stop = stop;
    this.hands = ground.inProcess().map(SetUpHands::new);
    this.thread = new Thread(this::drive, "set-up of " + settingUp.plan().serial());
  }

  /**
   * Opens the bench and begins.
   *
   * @param seal takes the record when it is closed; that thread
   * @throws WrongRequest if the bench is used by somebody else, or no record can be written
   */
  public static SetUpDesk begin(SettingUp settingUp, Consumer<Path> seal) throws WrongRequest {
    StopSwitch stop = new StopSwitch();
    Ground ground =
        settingUp.ground(
            GivenFiles::systemClockOf, stop, warning -> LOG.warn("set-up: {}", warning));
    try {
      SettingUp.Begun begun = settingUp.begin(ground);
      SetUpDesk desk = new SetUpDesk(settingUp, ground, begun, seal, stop);
      desk.thread.start();
      return desk;
    } catch (WrongRequest | RuntimeException e) {
      ground.close();
      throw e;
    }
  }

  /** What is set up. */
  public SettingUp settingUp() {
    return settingUp;
  }

  /** How it stands. */
  public SetUpState state() {
    return begun.setUp().state();
  }

  /** Its file. */
  public Path record() {
    return begun.record();
  }

  /** Whether simulated hands can do a step. */
  public boolean hasHands() {
    return hands.isPresent();
  }

  /**
   * Gives an answer and waits a moment for what comes of it.
   *
   * @param number of the state that was shown
   */
  public SetUpState answer(long number, SetUpAnswer answer) throws InterruptedException {
    CompletableFuture<SetUpState> came = new CompletableFuture<>();
    given.add(new Given(number, answer, came));
    try {
      return came.get(LONGEST_ANSWER_SECONDS, TimeUnit.SECONDS);
    } catch (ExecutionException | TimeoutException e) {
      return state();
    }
  }

  /** Lets simulated hands do the step that is shown; its caution a person has read. */
  public void help() {
    helped = Optional.of(state().step().key());
  }

  /** Somebody watches. */
  public void watched() {
    watched = new Stopwatch();
  }

  /** Ends it, whoever asks. */
  public void stop(String why) {
    stop.stop(why);
    given.add(new Given(0, new SetUpAnswer.Stop(why), new CompletableFuture<>()));
  }

  /**
   * Waits until something is new.
   *
   * @param seen what {@link #version} was
   */
  public synchronized void await(long seen, long millis) throws InterruptedException {
    Stopwatch waited = new Stopwatch();
    long left = millis;
    while (version == seen && left > 0) {
      wait(left);
      left = millis - waited.nanos() / 1_000_000L;
    }
  }

  /** Grows with everything that is new. */
  public synchronized long version() {
    return version;
  }

  private synchronized void news() {
    version++;
    notifyAll();
  }

  private void drive() {
    try (ground;
        begun) {
      while (state().ended().isEmpty()) {
        takeAll();
        help(state());
        aloneTooLong();
        beat();
        news();
      }
    } catch (IOException e) {
      LOG.error("the record of a set-up could not be closed", e);
    } finally {
      seal.accept(begun.record());
      takeAll();
      news();
    }
  }

  private void takeAll() {
    for (Given next = given.poll(); next != null; next = given.poll()) {
      SetUpState state = begun.setUp().answer(next.number(), next.answer());
      hands.ifPresent(h -> h.supply(state));
      next.came().complete(state);
    }
  }

  private void help(SetUpState state) {
    boolean helps = helped.filter(state.step().key()::equals).isPresent();
    if (helps && hands.isPresent() && state.caution().isEmpty() && state.ended().isEmpty()) {
      hands
          .get()
          .work(state)
          .ifPresent(
              answer -> {
                SetUpState after = begun.setUp().answer(state.number(), answer);
                hands.get().supply(after);
              });
    }
  }

  private void aloneTooLong() {
    if (state().powerOn() && watched.nanos() > ALONE_NANOS) {
      begun.setUp().answer(0, new SetUpAnswer.Stop("nobody watched the unit, which had power"));
    }
  }

  private void beat() {
    BenchClock clock = ground.clock();
    try {
      clock.waitUntil(begun.setUp().dueNanos());
      begun.setUp().look();
    } catch (InterruptedException e) {
      begun.setUp().answer(0, new SetUpAnswer.Stop("the program was asked to end"));
    }
  }

  /** Ends it and waits until the unit is safe. */
  @Override
  public void close() {
    stop("the screen was closed");
    try {
      thread.join(LONGEST_END_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}

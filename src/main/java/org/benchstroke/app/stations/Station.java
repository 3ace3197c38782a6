package org.benchstroke.app.stations;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.UnaryOperator;
import org.benchstroke.app.GivenFiles;
import org.benchstroke.app.Ground;
import org.benchstroke.app.Outcome;
import org.benchstroke.app.Session;
import org.benchstroke.app.Watcher;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.clock.Stopwatch;
import org.benchstroke.core.toml.FileMistakes;
import org.benchstroke.run.Echo;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.unit.MeasureKind;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One station: a state machine that people drive and a run moves on. Its run has a thread of its
 * own, and what happens at one station is not seen at another. Whoever watches reads {@link #seen},
 * whole at any moment; nobody is waited for. All methods may be called from any thread.
 */
public final class Station {
  private static final Logger LOG = LoggerFactory.getLogger(Station.class);

  private final Place place;
  private final Manners manners;
  private final Bell bell;
  private final AtomicReference<Seen> seen = new AtomicReference<>(Seen.FREE);
  private final Trail trail = new Trail();
  private final AtomicInteger attendants = new AtomicInteger();
  private volatile Stopwatch alone = new Stopwatch();

  /** What is at work; guarded by this. */
  private Optional<Session> session = Optional.empty();

  private Optional<StationOperator> operator = Optional.empty();
  private StopSwitch stop = new StopSwitch();
  private Optional<JobSheet> last = Optional.empty();
  private Optional<Thread> run = Optional.empty();

  /**
   * A station with nothing on it.
   *
   * @param bell rung whenever something is new
   */
  public Station(Place place, Manners manners, Bell bell) {
    this.place = place;
    this.manners = manners;
    this.bell = bell;
  }

  public Place place() {
    return place;
  }

  public Manners manners() {
    return manners;
  }

  /** How it stands. */
  public Seen seen() {
    return seen.get();
  }

  /**
   * The samples of the last minute that somebody does not have yet.
   *
   * @param has the end of what was given the last time; 0 at first
   */
  public Fresh since(long has) {
    Trail.Piece piece = trail.since(has);
    return new Fresh(piece.points(), piece.whole(), piece.end());
  }

  /**
   * Samples for somebody.
   *
   * @param points in their order
   * @param whole whether all earlier ones are to be forgotten
   * @param end what to ask with the next time
   */
  public record Fresh(List<Point> points, boolean whole, long end) {
    public Fresh {
      points = List.copyOf(points);
    }
  }

  private void change(UnaryOperator<Seen> to) {
    seen.updateAndGet(to);
    bell.ring();
  }

  /**
   * Takes a job; nothing is opened and nothing moves.
   *
   * @throws FileMistakes with every mistake in the files that it needs
   * @throws WrongRequest if it can't be done as it is asked for
   * @throws NotNow if the station is busy, or somebody else holds it
   */
  public synchronized void take(JobSheet sheet, Driver driver)
      throws NotNow, FileMistakes, WrongRequest, IOException {
    if (seen().stage() == Stage.RUNNING) {
      throw new NotNow("A unit is being tested here; wait until it has ended, or stop it.");
    }
    if (seen().stage() == Stage.TAKEN) {
      requireHolder(driver);
    }
    Session asked = session(sheet);
    session = Optional.of(asked);
    last = Optional.of(sheet);
    Job job = job(sheet, asked);
    change(s -> s.withoutEnd().at(Stage.TAKEN).heldBy(Optional.of(driver)).with(Optional.of(job)));
  }

  /** The job that was taken last: the next one is often of its order. */
  public synchronized Optional<JobSheet> lastJob() {
    return last;
  }

  private Session session(JobSheet sheet) throws FileMistakes, WrongRequest, IOException {
    Path procedure =
        sheet
            .procedure()
            .or(place::procedure)
            .orElseThrow(
                () -> new WrongRequest("which procedure? Choose one, or name it in the shop file"));
    Session first = Session.of(place.request(sheet, procedure, 0), place.tool());
    return place.simulated() && first.earlierAttempts() > 0
        ? Session.of(place.request(sheet, procedure, first.earlierAttempts()), place.tool())
        : first;
  }

  private static Job job(JobSheet sheet, Session session) throws IOException {
    return new Job(
        sheet,
        Echo.of(session.plan()),
        session.warnings(),
        session.earlierAttempts(),
        session.wantsSupervisor());
  }

  /** Says who allows one more attempt. */
  public synchronized void allow(Driver driver, String supervisor)
      throws NotNow, WrongRequest, IOException {
    requireStage(Stage.TAKEN, "There is no job here that waits to be allowed.");
    requireHolder(driver);
    Session allowed = session.orElseThrow().allowedBy(supervisor);
    session = Optional.of(allowed);
    Job job = job(seen().job().orElseThrow().sheet().allowedBy(supervisor), allowed);
    change(s -> s.with(Optional.of(job)));
  }

  /** Puts a job back that was not started, or clears what is left of one that has ended. */
  public synchronized void putBack(Driver driver) throws NotNow {
    if (seen().stage() == Stage.RUNNING) {
      throw new NotNow("A unit is being tested here: stop it first.");
    }
    if (seen().stage() == Stage.TAKEN) {
      requireHolder(driver);
    }
    session = Optional.empty();
    change(s -> s.withoutEnd().at(Stage.FREE).heldBy(Optional.empty()).with(Optional.<Job>empty()));
  }

  /**
   * Opens the bench and begins to ask; the unit moves only after that was agreed to.
   *
   * @throws WrongRequest if the bench is used by somebody else, or must not be used
   */
  public synchronized void start(Driver driver) throws NotNow, WrongRequest {
    requireStage(Stage.TAKEN, "There is no job here to start: scan a unit.");
    requireHolder(driver);
    if (seen().job().orElseThrow().wantsSupervisor()) {
      throw new NotNow("A supervisor must allow this attempt first.");
    }
    Session asked = session.orElseThrow();
    StopSwitch fresh = new StopSwitch();
    Ground ground = asked.ground(GivenFiles::systemClockOf, fresh, this::warned);
    StationOperator person = new StationOperator(manners, fresh, new Telling());
    stop = fresh;
    operator = Optional.of(person);
    trail.clear();
    change(s -> s.at(Stage.RUNNING));
    Thread thread =
        new Thread(() -> carryOut(asked, ground, person, fresh), "station " + place.letter());
    run = Optional.of(thread);
    thread.start();
  }

  private void warned(String warning) {
    LOG.warn("station {}: {}", place.letter(), warning);
  }

  private final class Telling implements StationOperator.Told {
    @Override
    public void asks(Optional<Asked> asked) {
      change(s -> s.asking(asked));
    }

    @Override
    public void counts(OptionalInt seconds) {
      change(s -> s.counting(seconds));
    }

    @Override
    public void waits() {
      stopIfAlone();
    }
  }

  private void carryOut(Session asked, Ground ground, StationOperator person, StopSwitch stopping) {
    RunView view =
        new RunView(
            asked.plan().unit().limit(MeasureKind.TRAVEL_ERROR),
            running -> {
              change(s -> s.with(running));
              stopIfAlone();
            },
            trail::add);
    Ended end;
    try (ground) {
      Outcome outcome =
          asked.run(
              ground,
              person,
              List.of(new Watcher("the bench screen", view)),
              stopping,
              place.seal());
      change(s -> s.with(judging(s.running())));
      end = new Finish(place).of(outcome, asked);
    } catch (WrongRequest | IOException e) {
      end = Finish.failed(e.getMessage());
    } catch (RuntimeException | Error e) {
      LOG.error("station {}: the program failed after a run", place.letter(), e);
      end = Finish.failed("the program failed: " + e + "; the record holds what was measured");
    }
    Ended what = end;
    synchronized (this) {
      operator = Optional.empty();
      session = Optional.empty();
    }
    change(s -> s.stopping(false).with(what).at(Stage.ENDED));
  }

  private static Running judging(Running r) {
    return r.saying("judging what was measured");
  }

  /**
   * Stops the run, whoever asks; of what stands still nothing happens. A software stop, never the
   * emergency stop.
   *
   * @param who is named in the record
   */
  public void stop(String who) {
    stopBecause("stopped at the bench screen" + (who.isBlank() ? "" : " by " + who));
  }

  private void stopBecause(String why) {
    Optional<StationOperator> person;
    synchronized (this) {
      if (seen().stage() != Stage.RUNNING) {
        return;
      }
      stop.stop(why);
      person = operator;
    }
    change(s -> s.stage() == Stage.RUNNING ? s.stopping(true) : s);
    person.ifPresent(StationOperator::stopped);
  }

  /** The screen of the holder shows the question: from now on it can be answered. */
  public void shown(Driver driver, long id) throws NotNow {
    asking(driver).shown(id);
  }

  /** The key that consents to motion goes down. */
  public void hold(Driver driver, long id) throws NotNow {
    asking(driver).hold(driver, id);
  }

  /** It was let go before its time. */
  public void release(Driver driver, long id) throws NotNow {
    asking(driver).release(id);
  }

  /** Yes; where the unit moves then, a key that was held long enough. */
  public void agree(Driver driver, long id) throws NotNow {
    asking(driver).agree(driver, id);
  }

  /** No: the run ends. */
  public void refuse(Driver driver, long id) throws NotNow {
    asking(driver).refuse(id);
  }

  /** A figure that was read. */
  public void figure(Driver driver, long id, String typed) throws NotNow {
    asking(driver).figure(id, typed);
  }

  private synchronized StationOperator asking(Driver driver) throws NotNow {
    requireHolder(driver);
    return operator.orElseThrow(() -> new NotNow("Nothing is asked here."));
  }

  /** Somebody else goes on from here: with a run that goes on, too. */
  public synchronized void takeOver(Driver driver) {
    change(s -> s.stage() == Stage.FREE ? s : s.heldBy(Optional.of(driver)));
    operator.ifPresent(StationOperator::unseen);
  }

  private void requireHolder(Driver driver) throws NotNow {
    Optional<Driver> holder = seen().holder();
    if (holder.isPresent() && !holder.get().screen().equals(driver.screen())) {
      String name = holder.get().name();
      throw new NotNow(
          (name.isBlank() ? "Another screen" : name + ", at another screen,")
              + " holds station "
              + place.letter()
              + ". Take it over first.");
    }
  }

  private void requireStage(Stage wanted, String otherwise) throws NotNow {
    if (seen().stage() != wanted) {
      throw new NotNow(otherwise);
    }
  }

  /**
   * Somebody who may stop it looks at it, until that is closed. A run whose output is live is
   * stopped when nobody does for too long: that is a rule of the run, and no page has a say in it.
   */
  public Attendance attend() {
    attendants.incrementAndGet();
    return new Attendance();
  }

  /** Somebody looks at the station. */
  public final class Attendance implements AutoCloseable {
    private boolean open = true;

    @Override
    public synchronized void close() {
      if (open) {
        open = false;
        alone = new Stopwatch();
        attendants.decrementAndGet();
      }
    }
  }

  private void stopIfAlone() {
    Seen now = seen();
    boolean live = now.stage() == Stage.RUNNING && now.running().output() == Output.LIVE;
    if (!live || now.stopping() || attendants.get() > 0) {
      return;
    }
    long longest = manners.aloneSeconds() * 1_000_000_000L;
    if (alone.nanos() >= longest) {
      stopBecause("no bench screen watched it for " + manners.aloneSeconds() + " s");
    }
  }

  /**
   * Waits until what runs has ended.
   *
   * @return whether nothing runs any more
   */
  public boolean join(long millis) throws InterruptedException {
    Optional<Thread> thread;
    synchronized (this) {
      thread = run;
    }
    if (thread.isEmpty()) {
      return true;
    }
    thread.get().join(millis);
    return !thread.get().isAlive();
  }
}

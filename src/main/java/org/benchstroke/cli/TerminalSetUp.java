package org.benchstroke.cli;

import java.io.IOException;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.benchstroke.app.ExitCode;
import org.benchstroke.app.Ground;
import org.benchstroke.app.SettingUp;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.run.StopSwitch;
import org.benchstroke.setup.Field;
import org.benchstroke.setup.FieldKey;
import org.benchstroke.setup.SetUp;
import org.benchstroke.setup.SetUpAnswer;
import org.benchstroke.setup.SetUpState;
import org.benchstroke.setup.Step;
import org.benchstroke.setup.StepKey;
import org.benchstroke.simulator.practice.SetUpHands;
import picocli.CommandLine.Model.CommandSpec;

/**
 * Drives a set-up at the terminal: shows its state, hands over what is typed. Only what is typed
 * after a question was seen answers it. One thread.
 */
final class TerminalSetUp {
  private static final long KEYS_MILLIS = 2;
  private static final long SLICE_MILLIS = 100;
  private static final int COUNT_DOWN_SECONDS = 3;
  private static final int SLICES_A_SECOND = 10;

  private final CommandSpec spec;
  private final SettingUp settingUp;
  private final boolean unattended;
  private final Shown out;
  private final Shown err;
  private final StopSwitch stop = new StopSwitch();
  private Optional<StepKey> helped = Optional.empty();

  /**
   * Opens nothing yet.
   *
   * @param unattended whether simulated hands do all of it
   */
  TerminalSetUp(CommandSpec spec, SettingUp settingUp, boolean unattended) {
    this.spec = spec;
    this.settingUp = settingUp;
    this.unattended = unattended;
    this.out = Shown.out(spec);
    this.err = Shown.err(spec);
  }

  /** Records that the unit came set up. */
  int cameSetUp() throws WrongRequest {
    Sealing sealing = Sealing.begin(spec, !unattended);
    BenchClock clock = Root.of(spec).clocks().apply(settingUp.plan().bench());
    var record = settingUp.cameSetUp(clock);
    sealing.seal(record);
    out.println("Recorded: the unit came set up.");
    out.println("Record:  " + record);
    out.flush();
    return ExitCode.PASSED;
  }

  /** Sets it up; gives the exit code. */
  int carryOut() throws WrongRequest, IOException {
    Sealing sealing = Sealing.begin(spec, !unattended);
    try (StopHook hook = StopHook.set(stop, out, err);
        Ground ground = settingUp.ground(Root.of(spec).clocks(), stop, err::println);
        Tty tty = unattended ? Tty.watched() : Tty.forKeys()) {
      hook.lastly(tty::close);
      Keys keys =
          unattended
              ? Keys.lines(Input.of(spec), out)
              : Keys.at(tty, Input.of(spec), out, () -> stop.stop("the terminal is gone"));
      SetUpScreen screen =
          new SetUpScreen(out, Terminals.isThere() && !unattended, tty::width, settingUp);
      SettingUp.Begun begun = settingUp.begin(ground);
      try (begun) {
        screen.begun();
        new Driven(begun.setUp(), ground, keys, screen).toTheEnd();
      } finally {
        sealing.seal(begun.record());
      }
      SetUpState last = begun.setUp().state();
      screen.ended(last, begun.record());
      return code(last);
    }
  }

  private static int code(SetUpState last) {
    if (last.ended().filter(SetUpState.End::whole).isEmpty()) {
      return ExitCode.NOT_COMPLETED;
    }
    return last.differences().isEmpty() ? ExitCode.PASSED : ExitCode.NOT_PASSED;
  }

  /** One set-up, while it goes on. */
  private final class Driven {
    private final SetUp setUp;
    private final BenchClock clock;
    private final Keys keys;
    private final SetUpScreen screen;
    private final Optional<SetUpHands> hands;
    private SetUpState state;
    private long shown = -1;

    Driven(SetUp setUp, Ground ground, Keys keys, SetUpScreen screen) {
      this.setUp = setUp;
      this.clock = ground.clock();
      this.keys = keys;
      this.screen = screen;
      this.hands = ground.inProcess().map(SetUpHands::new);
      this.state = setUp.state();
    }

    void toTheEnd() {
      while (state.ended().isEmpty()) {
        if (state.number() != shown) {
          ask();
        }
        answer().ifPresent(this::take);
        beat();
        screen.live(state);
      }
    }

    private void ask() {
      screen.asked(state, hands.isPresent());
      shown = state.number();
      drain();
      keys.forget();
    }

    private void drain() {
      while (!stop.isStopping() && !out.drain(SLICE_MILLIS)) {
        beat();
      }
    }

    private void take(SetUpAnswer answer) {
      state = setUp.answer(shown, answer);
      hands.ifPresent(h -> h.supply(state));
      screen.answered(state);
    }

    /** One look, when it is due. */
    private void beat() {
      try {
        clock.waitUntil(setUp.dueNanos());
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        stop.stop("the program was asked to end");
      }
      state = setUp.look();
    }

    private Optional<SetUpAnswer> answer() {
      if (stop.isStopping()) {
        return Optional.of(new SetUpAnswer.Stop("stopped at the terminal"));
      }
      boolean helps = unattended || helped.filter(state.step().key()::equals).isPresent();
      if (helps && hands.isPresent() && (unattended || state.caution().isEmpty())) {
        Optional<SetUpAnswer> done = hands.get().work(state);
        if (done.isPresent() || unattended) {
          return done;
        }
      }
      return keys.poll(singles(), KEYS_MILLIS).flatMap(this::meant);
    }

    private String singles() {
      StringBuilder single = new StringBuilder();
      for (SetUpAnswer.Kind kind : state.allowed()) {
        single.append(SetUpScreen.key(kind));
      }
      return single.append(hands.isPresent() ? "h" : "").toString();
    }

    private Optional<SetUpAnswer> meant(String typed) {
      if (Keys.isEnd(typed)) {
        return Optional.of(new SetUpAnswer.Stop("the input ended"));
      }
      if (typed.equals("h") && hands.isPresent()) {
        helped = Optional.of(state.step().key());
        return Optional.empty();
      }
      for (SetUpAnswer.Kind kind : state.allowed()) {
        if (typed.equalsIgnoreCase(SetUpScreen.word(kind))) {
          return said(kind);
        }
      }
      screen.keys(state, hands.isPresent());
      return Optional.empty();
    }

    private Optional<SetUpAnswer> said(SetUpAnswer.Kind kind) {
      return switch (kind) {
        case READ -> Optional.of(new SetUpAnswer.Read());
        case MOVE -> move();
        case BEGIN -> Optional.of(new SetUpAnswer.Begin());
        case MARK -> Optional.of(new SetUpAnswer.Mark());
        case DONE -> typed().map(SetUpAnswer.Done::new);
        case AGAIN -> Optional.of(new SetUpAnswer.Again());
        case SKIP -> line("  Why is it skipped?  ").map(SetUpAnswer.Skip::new);
        case CAME_SET_UP -> Optional.of(new SetUpAnswer.CameSetUp());
        case STOP -> Optional.of(new SetUpAnswer.Stop("q, at the terminal"));
      };
    }

    private Optional<SetUpAnswer> move() {
      if (!(state.step().form() instanceof Step.Energise)) {
        return Optional.of(new SetUpAnswer.Move());
      }
      Optional<Map<FieldKey, String>> typed = typed();
      for (int left = COUNT_DOWN_SECONDS; left > 0 && typed.isPresent(); left--) {
        out.control(Shown.Control.BELL);
        out.println("  Moving in " + left + " …");
        out.flush();
        aSecond();
      }
      return stop.isStopping() ? Optional.empty() : typed.map(SetUpAnswer.Move::new);
    }

    private void aSecond() {
      try {
        for (int i = 0; i < SLICES_A_SECOND && !stop.isStopping(); i++) {
          clock.waitInWall(1_000_000_000L / SLICES_A_SECOND);
          beat();
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        stop.stop("the program was asked to end");
      }
    }

    /** Field after field; empty if the work is stopped meanwhile. */
    private Optional<Map<FieldKey, String>> typed() {
      Map<FieldKey, String> typed = new EnumMap<>(FieldKey.class);
      for (Field field : state.step().fields()) {
        Optional<String> text = line(SetUpScreen.question(field));
        if (text.isEmpty()) {
          return Optional.empty();
        }
        typed.put(field.key(), text.get().isEmpty() ? field.preset() : text.get());
      }
      return Optional.of(typed);
    }

    private Optional<String> line(String question) {
      screen.question(question);
      drain();
      keys.forget();
      while (!stop.isStopping() && state.ended().isEmpty()) {
        Optional<String> typed = keys.poll("", KEYS_MILLIS);
        if (typed.isPresent()) {
          return typed.filter(text -> !Keys.isEnd(text));
        }
        beat();
      }
      return Optional.empty();
    }
  }
}

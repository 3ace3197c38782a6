package org.benchstroke.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.IntSupplier;
import org.benchstroke.app.SettingUp;
import org.benchstroke.core.clock.Stopwatch;
import org.benchstroke.core.quantity.Numbers;
import org.benchstroke.setup.Difference;
import org.benchstroke.setup.Edge;
import org.benchstroke.setup.Field;
import org.benchstroke.setup.Live;
import org.benchstroke.setup.SetUpAnswer;
import org.benchstroke.setup.SetUpState;
import org.benchstroke.setup.Step;
import org.benchstroke.setup.StepKey;

/**
 * Shows a set-up at the terminal: a block for each step, and where there is a screen one live line
 * with the lamp by shape and word, the angle, and what to do now.
 */
final class SetUpScreen {
  private static final long REDRAW_NANOS = 100_000_000L;

  private final Shown out;
  private final boolean live;
  private final IntSupplier columns;
  private final SettingUp settingUp;
  private Optional<StepKey> titled = Optional.empty();
  private Optional<Stopwatch> drawn = Optional.empty();
  private boolean lineShown;
  private long changes;
  private int told;
  private String notice = "";

  /**
   * Shows nothing yet.
   *
   * @param live whether there is a screen for a live line
   * @param columns of the screen
   */
  SetUpScreen(Shown out, boolean live, IntSupplier columns, SettingUp settingUp) {
    this.out = out;
    this.live = live;
    this.columns = columns;
    this.settingUp = settingUp;
  }

  /** What is set up. */
  void begun() {
    if (settingUp.simulated()) {
      out.println("SIMULATED bench " + settingUp.plan().bench().name());
    }
    out.println(
        "Set-up of "
            + settingUp.plan().serial()
            + ", order "
            + settingUp.plan().order()
            + ": "
            + settingUp.plan().unit().name());
  }

  /** The key of an answer; one that wants a whole word has none. */
  static String key(SetUpAnswer.Kind kind) {
    return kind == SetUpAnswer.Kind.MOVE ? "" : word(kind);
  }

  /** What is typed for an answer. */
  static String word(SetUpAnswer.Kind kind) {
    return switch (kind) {
      case READ, DONE -> "y";
      case MOVE -> "move";
      case BEGIN -> "b";
      case MARK -> "m";
      case AGAIN -> "a";
      case SKIP -> "s";
      case CAME_SET_UP -> "c";
      case STOP -> "q";
    };
  }

  private static String says(SetUpAnswer.Kind kind) {
    return switch (kind) {
      case READ -> "y = read, go on";
      case DONE -> "y = done";
      case MOVE -> "move and Enter = let it move";
      case BEGIN -> "b = its calibration begins now";
      case MARK -> "m = it clicked now";
      case AGAIN -> "a = once more";
      case SKIP -> "s = skip";
      case CAME_SET_UP -> "c = it came set up";
      case STOP -> "q = the end";
    };
  }

  /** What is asked now. */
  void asked(SetUpState state, boolean hands) {
    clear();
    tellDone(state);
    if (titled.filter(state.step().key()::equals).isEmpty()) {
      titled = Optional.of(state.step().key());
      changes = 0;
      out.println();
      out.println(
          "Step " + state.place() + " of " + state.of() + "  " + state.step().key().title());
    }
    if (state.caution().isPresent()) {
      Cautions.show(out, state.caution().get(), columns.getAsInt());
    }
    if (state.caution().isEmpty() || state.step().form() instanceof Step.Energise) {
      state.step().does().forEach(line -> print("  " + line, 2));
      print("  Picture: " + state.step().picture().alt(), 11);
      if (state.step().key() == StepKey.WIRE) {
        settingUp.manual().ifPresent(this::manual);
      }
    }
    keys(state, hands);
  }

  private void manual(SettingUp.Manual manual) {
    print(
        "  Maker's page: "
            + manual.file()
            + (manual.there() ? "" : "  (it is NOT there: put it beside the unit type file)"),
        4);
  }

  /** What can be typed. */
  void keys(SetUpState state, boolean hands) {
    List<String> keys = new ArrayList<>();
    for (SetUpAnswer.Kind kind : SetUpAnswer.Kind.values()) {
      if (state.allowed().contains(kind)) {
        keys.add(says(kind));
      }
    }
    if (hands && state.caution().isEmpty()) {
      keys.add("h = simulated hands do it");
    }
    print("  " + String.join("   ", keys), 2);
    out.flush();
  }

  /** What became of an answer. */
  void answered(SetUpState state) {
    tellNotice(state);
  }

  private void tellNotice(SetUpState state) {
    if (!state.notice().equals(notice)) {
      notice = state.notice();
      if (!notice.isEmpty()) {
        print("  !! " + notice, 5);
        out.flush();
      }
    }
  }

  private void tellDone(SetUpState state) {
    for (; told < state.done().size(); told++) {
      SetUpState.DoneStep done = state.done().get(told);
      String words = done.words().isEmpty() ? "" : ": " + done.words();
      print("  " + done.outcome().key() + words, 4);
    }
  }

  /** What is typed at a field. */
  static String question(Field field) {
    String unit = field.kind() instanceof Field.Figure number ? ", " + number.unit() : "";
    String choice =
        field.kind() instanceof Field.Choice words
            ? " (" + String.join(", ", words.words()) + ")"
            : "";
    String blank =
        !field.preset().isEmpty()
            ? " (Enter: " + field.preset() + ")"
            : field.required() ? "" : " (Enter: not known)";
    return "  " + field.label() + unit + choice + blank + ":  ";
  }

  void question(String question) {
    clear();
    out.print(question);
    out.flush();
  }

  /** What is read just now. */
  void live(SetUpState state) {
    tellNotice(state);
    Live now = state.live();
    if (now.changes() != changes) {
      changes = now.changes();
      out.control(Shown.Control.BELL);
    }
    boolean due = drawn.map(since -> since.nanos() >= REDRAW_NANOS).orElse(true);
    boolean something = state.caution().isEmpty() && state.step().live();
    if (!live || !due || !something || out.waiting() > 0) {
      return;
    }
    drawn = Optional.of(new Stopwatch());
    String line = line(now);
    int width = columns.getAsInt() - 1;
    out.control(Shown.Control.CLEAR_LINE);
    out.print(line.length() <= width ? line : line.substring(0, width));
    out.flush();
    lineShown = true;
  }

  /** The most important first: what does not fit is cut off at the end. */
  private static String line(Live now) {
    StringBuilder line = new StringBuilder("  ");
    now.made().ifPresent(made -> line.append(made ? "[#] MADE  " : "[ ] open  "));
    now.hint().ifPresent(hint -> line.append(String.format(Locale.ROOT, "%-25s ", hint.words())));
    now.calibration().ifPresent(c -> line.append(calibrating(c)));
    if (now.degrees().isPresent()) {
      line.append("at ").append(Numbers.fixed(now.degrees().getAsDouble(), 1)).append("°");
      now.targetDegrees()
          .ifPresent(to -> line.append(" to ").append(Numbers.fixed(to, 1)).append("°"));
    } else if (now.percent().isPresent()) {
      line.append("at ").append(Numbers.fixed(now.percent().getAsDouble(), 1)).append(" %");
    }
    now.trip().ifPresent(edge -> line.append("  trips ").append(angle(edge)));
    now.reset().ifPresent(edge -> line.append("  resets ").append(angle(edge)));
    return line.toString();
  }

  private static String angle(Edge edge) {
    return Numbers.fixed(edge.degrees(), 1)
        + "°"
        + (edge.expandedDegrees() > 0.0
            ? " ± " + Numbers.fixed(edge.expandedDegrees(), 1) + "°"
            : "");
  }

  private static String calibrating(Live.Calibrating c) {
    String usual = c.usualSeconds() > 0 ? " of some " + Numbers.fixed(c.usualSeconds(), 0) : "";
    return Numbers.fixed(c.seconds(), 0) + usual + " s, " + c.way() + "  ";
  }

  /** How it ended. */
  void ended(SetUpState last, Path record) {
    clear();
    tellDone(last);
    SetUpState.End end = last.ended().orElseThrow();
    out.println();
    out.println((end.whole() ? "Set up: " : "NOT SET UP: ") + end.reason());
    for (Difference each : last.differences()) {
      print(
          "NOT AS ORDERED: "
              + each.sentence()
              + (each.blocks() ? " (no test begins before that is put right)" : ""),
          2);
    }
    print("Safe signal: " + end.safe(), 2);
    print("Motor power: " + end.power(), 2);
    out.println("Record:  " + record);
    out.flush();
  }

  private void print(String text, int indent) {
    clear();
    out.println(Wrapped.text(text, columns.getAsInt(), indent));
  }

  private void clear() {
    if (lineShown) {
      out.control(Shown.Control.CLEAR_LINE);
      lineShown = false;
    }
  }
}

package org.benchstroke.simulator;

import java.util.EnumMap;
import java.util.Map;
import org.benchstroke.core.model.UnitModel;
import org.benchstroke.io.instrument.LimitSwitch;

/**
 * What a person's hands do at a simulated unit: turn its wheel and its cams, screw its stops, start
 * its own calibration. What is turned takes its time: it moves as the bench's time goes on. One
 * thread at a time, that of the bench.
 */
public final class SimulatedHand {
  private static final long SLICE_NANOS = UnitModel.STEP_NANOS;
  private static final double SLICE_SECONDS = SLICE_NANOS / 1e9;
  private static final double LEAST_SPEED = 0.01;

  private final UnitModel model;
  private final Map<LimitSwitch, Motion> cams = new EnumMap<>(LimitSwitch.class);
  private Motion wheel = Motion.NONE;
  private long at;

  /**
   * A motion that goes on.
   *
   * @param goal where to, °
   * @param speed °/s; 0 for none
   */
  private record Motion(double goal, double speed) {
    private static final Motion NONE = new Motion(0.0, 0.0);

    double from(double angle) {
      double step = speed * SLICE_SECONDS;
      return angle + Math.max(-step, Math.min(step, goal - angle));
    }

    boolean endsAt(double angle) {
      return speed == 0.0 || angle == goal;
    }
  }

  SimulatedHand(UnitModel model) {
    this.model = model;
  }

  /**
   * Begins to turn the hand wheel; a unit that has its supply does not turn.
   *
   * @param degrees where to, at the shaft, °
   * @param degreesPerSecond how fast the shaft turns then, °/s
   */
  public void turnWheel(double degrees, double degreesPerSecond) {
    wheel = new Motion(degrees, Math.max(LEAST_SPEED, degreesPerSecond));
  }

  /**
   * Begins to turn a cam on its shaft.
   *
   * @param degrees the angle at which its switch shall trip then, °
   * @param degreesPerSecond how fast, °/s
   */
  public void turnCam(LimitSwitch which, double degrees, double degreesPerSecond) {
    cams.put(which, new Motion(degrees, Math.max(LEAST_SPEED, degreesPerSecond)));
  }

  /** Takes the hands away: what was being turned stays where it is. */
  public void letGo() {
    wheel = Motion.NONE;
    cams.clear();
  }

  /** Whether something is being turned. */
  public boolean busy() {
    return wheel.speed() > 0.0 || !cams.isEmpty();
  }

  /** Screws the stops to these angles, °. */
  public void setStops(double closedDegrees, double openDegrees) {
    model.setStops(closedDegrees, openDegrees);
  }

  /** Presses the key that starts the unit's own calibration; it needs the unit's supply. */
  public void startCalibration() {
    model.startCalibration();
  }

  /** Whether the unit's display says that it calibrates itself. */
  public boolean calibrating() {
    return model.calibrating();
  }

  /** Whether its display says that the last one succeeded. */
  public boolean calibrationSucceeded() {
    return model.calibrationSucceeded();
  }

  /** The angle of the shaft, °, as on a scale that is on it. */
  public double wheelDegrees() {
    return model.gearDegrees();
  }

  /** The angle at which a cam's switch trips, °, which nobody at a bench can see. */
  public double camDegrees(LimitSwitch which) {
    return model.camDegrees(cam(which));
  }

  /** The stop beyond closed, °. */
  public double closedStopDegrees() {
    return model.closedStopDegrees();
  }

  /** The stop beyond open, °. */
  public double openStopDegrees() {
    return model.openStopDegrees();
  }

  /** Moves what is being turned up to the instant, in slices, ns of the unit's time. */
  void advanceTo(long nanos) {
    while (busy() && at < nanos) {
      at = Math.min(nanos, at + SLICE_NANOS);
      turn();
      model.advanceTo(at);
    }
    at = nanos;
  }

  private void turn() {
    if (wheel.speed() > 0.0) {
      double before = model.gearDegrees();
      double next = wheel.from(before);
      model.turnByHand(next);
      boolean held = model.gearDegrees() == before;
      wheel = held || wheel.endsAt(model.gearDegrees()) ? Motion.NONE : wheel;
    }
    cams.entrySet()
        .removeIf(
            each -> {
              UnitModel.Cam cam = cam(each.getKey());
              double next = each.getValue().from(model.camDegrees(cam));
              model.turnCam(cam, next);
              return each.getValue().endsAt(next);
            });
  }

  private static UnitModel.Cam cam(LimitSwitch which) {
    return switch (which) {
      case CLOSED -> UnitModel.Cam.CLOSED;
      case OPEN -> UnitModel.Cam.OPEN;
      case CLOSED_AUXILIARY -> UnitModel.Cam.CLOSED_AUXILIARY;
      case OPEN_AUXILIARY -> UnitModel.Cam.OPEN_AUXILIARY;
    };
  }
}

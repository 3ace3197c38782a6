package org.benchstroke.commission;

import java.util.ArrayList;
import java.util.List;
import org.benchstroke.core.quantity.Current;
import org.benchstroke.core.quantity.Position;
import org.benchstroke.io.instrument.InstrumentException;
import org.benchstroke.io.instrument.LoopMeter;

/**
 * What the loop meter reads of the source at both ends and in the middle of the signal, the motor
 * supply off: the bench's own check, without a unit or with one that stands still. One thread.
 */
public final class LoopReading {
  private static final List<Double> PLACES = List.of(0.0, 50.0, 100.0);

  private final HandBench hands;
  private final List<Read> reads = new ArrayList<>();

  /**
   * A reading.
   *
   * @param wanted what was set
   * @param found what the loop meter read
   */
  public record Read(Current wanted, Current found) {}

  /** Does nothing yet. */
  public LoopReading(HandBench hands) {
    this.hands = hands;
  }

  /** Reads. Never throws; what it read is whole only if the result says done. */
  public HandResult read() {
    return hands.withPowerOff(
        () -> {
          LoopMeter meter =
              hands
                  .bench()
                  .loopMeter()
                  .orElseThrow(
                      () ->
                          new HandEnded(
                              HandResult.How.FAULT, "the bench has no loop meter that answers"));
          for (double place : PLACES) {
            read(meter, hands.unit().currentAt(Position.ofPercent(place)));
          }
        });
  }

  private void read(LoopMeter meter, Current wanted) throws HandEnded {
    hands.apply(wanted);
    double settle = hands.unit().practice().loopSettleSeconds();
    hands.waitUntil(hands.clock().nanos() + (long) (settle * 1e9));
    try {
      reads.add(new Read(wanted, meter.read(hands.deadline()).value()));
    } catch (InstrumentException e) {
      throw hands.lost(e);
    }
  }

  /** What was read so far, in the order of the currents. */
  public List<Read> reads() {
    return List.copyOf(reads);
  }
}

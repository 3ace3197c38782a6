package org.benchstroke.simulator;

import org.benchstroke.io.transport.Endpoint;
import org.benchstroke.io.transport.PortName;

/**
 * Where a serial line of a bench file is played. Immutable.
 *
 * @param written the line's port in the bench file
 * @param far the port that the simulator opens
 * @param near the port at which the line is then reached
 */
public record SerialPlace(Endpoint.Serial written, PortName far, PortName near) {
  /** The simulator's end, set as the line is. */
  Endpoint.Serial farEnd() {
    return new Endpoint.Serial(far, written.settings());
  }

  /** The bench's end. */
  Endpoint.Serial nearEnd() {
    return new Endpoint.Serial(near, written.settings());
  }
}

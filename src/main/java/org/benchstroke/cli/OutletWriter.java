package org.benchstroke.cli;

import java.io.OutputStreamWriter;
import java.io.PrintWriter;

/** Text into an {@link Outlet}, as it is. Any thread. */
final class OutletWriter extends PrintWriter {
  private final Outlet outlet;

  OutletWriter(Outlet outlet) {
    super(new OutputStreamWriter(outlet, Terminals.charset()), true);
    this.outlet = outlet;
  }

  Outlet outlet() {
    return outlet;
  }
}

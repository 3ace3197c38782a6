package org.benchstroke.simulator;

import java.util.List;

/** An instrument behind a SCPI session. */
interface ScpiInstrument {
  /** Maker, model, serial number and firmware level, as *IDN? answers them. */
  String identity();

  /** Its settings as *RST leaves them. */
  void reset();

  /** Its commands beside those of IEEE 488.2. */
  List<ScpiCommand> commands();
}

package org.benchstroke.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import org.benchstroke.simulator.SimulationReader;

/** A simulation file: it is read, or its mistakes are told. Nothing else comes of it. */
class SimulationFuzz {
  @FuzzTest
  void read(byte[] bytes) throws Exception {
    TextFuzz.of(bytes, text -> SimulationReader.read(TextFuzz.PLACE, text));
  }
}

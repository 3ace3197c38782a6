package org.benchstroke.simulator;

import java.util.List;

/**
 * One box that is several instruments, such as a source that also measures the loop.
 *
 * @param identity as *IDN? answers it
 * @param parts what it is
 */
record ScpiBox(String identity, List<ScpiInstrument> parts) implements ScpiInstrument {
  ScpiBox {
    parts = List.copyOf(parts);
  }

  @Override
  public void reset() {
    parts.forEach(ScpiInstrument::reset);
  }

  @Override
  public List<ScpiCommand> commands() {
    return parts.stream().flatMap(part -> part.commands().stream()).toList();
  }
}

package org.benchstroke.simulator;

import java.util.List;

/**
 * A command or a query of an instrument.
 *
 * @param header its header
 * @param query whether it ends in a question mark
 * @param handler carries it out
 */
record ScpiCommand(ScpiHeader header, boolean query, Handler handler) {

  /** Carries a command out. */
  interface Handler {
    /** Returns the answer of a query; of a command, nothing that matters. */
    String handle(List<String> parameters) throws ScpiError;
  }

  /** Carries out a command that takes one parameter. */
  interface Setter {
    void set(String parameter) throws ScpiError;
  }

  /** Answers a query. */
  interface Getter {
    String get();
  }

  static ScpiCommand query(String printed, Getter getter) {
    return new ScpiCommand(
        new ScpiHeader(printed),
        true,
        parameters -> {
          ScpiParameters.none(parameters);
          return getter.get();
        });
  }

  static ScpiCommand setting(String printed, Setter setter) {
    return new ScpiCommand(
        new ScpiHeader(printed),
        false,
        parameters -> {
          setter.set(ScpiParameters.one(parameters));
          return "";
        });
  }

  static ScpiCommand event(String printed, Runnable action) {
    return new ScpiCommand(
        new ScpiHeader(printed),
        false,
        parameters -> {
          ScpiParameters.none(parameters);
          action.run();
          return "";
        });
  }
}

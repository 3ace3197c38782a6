package org.benchstroke.web;

import java.util.Locale;

/** What somebody may do at the screen; each right includes those before it. */
public enum Right {
  /** Look at everything. */
  READ,
  /** Take jobs, answer questions, stop. */
  DRIVE,
  /** Allow what a supervisor allows. */
  AUTHORISE;

  /** As files and forms say it. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }
}

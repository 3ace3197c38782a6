package org.benchstroke.web;

/** What somebody may do at the screen; each right includes those before it. */
public enum Right {
  /** Look at everything. */
  READ,
  /** Take jobs, answer questions, stop. */
  DRIVE,
  /** Allow what a supervisor allows. */
  AUTHORISE
}

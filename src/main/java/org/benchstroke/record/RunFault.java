package org.benchstroke.record;

/** What went wrong in a run, or is wrong with a file of others. */
public enum RunFault {
  /** An instrument did not answer. */
  NO_REPLY("no reply"),
  /** A port vanished. */
  PORT_GONE("port gone"),
  /** An instrument answered what can't be the answer, or had to be asked again. */
  BAD_REPLY("bad reply"),
  /** A gateway answered in place of an instrument. */
  BEHIND_GATEWAY("no reply from behind the gateway"),
  /** An instrument answered that it will not. */
  REFUSED("instrument refused"),
  /** An instrument itself says that it measures nothing. */
  NO_VALUE("no value"),
  /** A person did not set what was asked for. */
  NOT_SET("not set by hand"),
  /** A value kept all its digits where it had to change. */
  FROZEN_VALUE("frozen value"),
  /** A value that answers an earlier question. */
  LATE_REPLY("late reply"),
  /** A setting that was read back, though its write was not answered. */
  DOUBTED_WRITE("doubted write"),
  /** The loop carries another current than was set. */
  LOOP_CURRENT("loop current"),
  /** The source no longer makes what it was set to. */
  SETTING_LOST("setting lost"),
  /** No sample for longer than is allowed. */
  GAP("gap"),
  /** The feedback moved faster than the unit can. */
  IMPOSSIBLE_SLEW("impossible slew"),
  /** The stem moved while a person read its angle. */
  MOVED_WHILE_READ("moved while read"),
  /** A row of a file that can't be what was measured. */
  DAMAGED_ROW("damaged row"),
  /** Rows of a file whose times go back. */
  TIME_GOES_BACK("time goes back"),
  /** A file's samples are too far apart for what is judged. */
  SAMPLING("sampling"),
  /** A file's readings have fewer digits than what is judged needs. */
  ROUNDED_READINGS("rounded readings"),
  /** Rows of a file were left out by whoever made it. */
  ROWS_LEFT_OUT("rows left out"),
  /** A file names another unit. */
  ANOTHER_UNIT("another unit"),
  /** A test of the procedure that a file does not show. */
  NOT_IN_FILE("not in the file"),
  /** A file holds more of a test's kind than its procedure asks for. */
  MORE("more than was judged");

  private final String words;

  RunFault(String words) {
    this.words = words;
  }

  /** As it stands in a record, and for people. */
  @Override
  public String toString() {
    return words;
  }
}

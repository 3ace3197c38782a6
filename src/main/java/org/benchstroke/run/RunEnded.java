package org.benchstroke.run;

/** The run ends here, before or at its planned end. */
public final class RunEnded extends Exception {
  private static final long serialVersionUID = 1L;

  /** The ways in which a run ends. */
  public enum How {
    COMPLETE("complete"),
    PREFLIGHT_FAILED("preflight failed"),
    ACTION_REVERSED("action reversed"),
    STOPPED("stopped"),
    FAULT("fault");

    private final String text;

    How(String text) {
      this.text = text;
    }

    /** The word for it in records. */
    public String text() {
      return text;
    }
  }

  private final How how;

  RunEnded(How how, String reason) {
    super(reason);
    this.how = how;
  }

  public How how() {
    return how;
  }
}

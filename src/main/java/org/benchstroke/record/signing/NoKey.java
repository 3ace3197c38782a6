package org.benchstroke.record.signing;

/** The bench's key can't be used; the message says which file, why, and what to do. */
public final class NoKey extends Exception {
  private static final long serialVersionUID = 1L;

  private final boolean locked;

  NoKey(String message, boolean locked) {
    super(message);
    this.locked = locked;
  }

  /** For another reason. */
  public static NoKey because(Throwable why) {
    return new NoKey("the bench's key can't be used: " + why.getMessage(), false);
  }

  /** Whether another passphrase would open it. */
  public boolean locked() {
    return locked;
  }
}

package org.benchstroke.web;

/** A request that is not done; its message says why and what to do, in words for a person. */
public final class Refusal extends Exception {
  private static final long serialVersionUID = 1L;

  private final int status;

  private Refusal(int status, String message) {
    super(message);
    this.status = status;
  }

  /** There is no such thing. */
  public static Refusal notThere(String message) {
    return new Refusal(404, message);
  }

  /** It can't be done as it was put. */
  public static Refusal wrong(String message) {
    return new Refusal(422, message);
  }

  /** Not by this person. */
  public static Refusal notAllowed(String message) {
    return new Refusal(403, message);
  }

  /** Not now: things stand otherwise than the page said. */
  public static Refusal notNow(String message) {
    return new Refusal(409, message);
  }

  /** Too many already. */
  public static Refusal full(String message) {
    return new Refusal(503, message);
  }

  /** The status of HTTP. */
  public int status() {
    return status;
  }
}

package org.benchstroke.web;

/** A request that is not done; its message says why and what to do, in words for a person. */
public final class Refusal extends Exception {
  private static final long serialVersionUID = 1L;

  private static final int NOT_THERE = 404;

  /** Of HTTP: the request is for another machine. */
  static final int ELSEWHERE = 421;

  private final int status;

  private Refusal(int status, String message) {
    super(message);
    this.status = status;
  }

  /** What stands above it: to ask for what is not there is no mistake of anybody's. */
  String title() {
    return status == NOT_THERE ? "Nothing here" : "Not done";
  }

  /** There is no such thing. */
  public static Refusal notThere(String message) {
    return new Refusal(NOT_THERE, message);
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

  /** Not for this machine. */
  public static Refusal elsewhere(String message) {
    return new Refusal(ELSEWHERE, message);
  }

  /** Too many attempts, or too soon. */
  public static Refusal tooSoon(String message) {
    return new Refusal(429, message);
  }

  /** Too many already. */
  public static Refusal full(String message) {
    return new Refusal(503, message);
  }

  /** What the server itself refuses, by its status. */
  static Refusal of(int status) {
    return new Refusal(
        status,
        switch (status) {
          case NOT_THERE -> "There is no page at this address.";
          case 405 -> "Nothing here is asked for in this way. Open the page again.";
          case 408 -> "What was sent came too slowly, and was not taken. Send it again.";
          case 413 -> "What was sent is too large, and was not taken: no form here is so large.";
          default -> "The request can't be understood. Open the page again.";
        });
  }

  /** The status of HTTP. */
  public int status() {
    return status;
  }
}

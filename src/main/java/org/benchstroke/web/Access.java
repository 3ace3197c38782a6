package org.benchstroke.web;

import io.javalin.http.Context;
import java.util.List;
import java.util.Optional;

/** Who may do what, asked for every request before its page is. Any thread, several at a time. */
public interface Access {
  /**
   * Every request comes here first: gives the answer the headers that every answer carries.
   *
   * @throws Refusal if it is for another machine, or by a method that nothing here has
   */
  void admit(Context request) throws Refusal;

  /** Who sends it; empty if that is not known yet, and then {@link #ask} answers. */
  Optional<Visitor> visitor(Context request);

  /** Answers a request of nobody known: leads to where one signs in. */
  void ask(Context request);

  /** What a form of this browser carries, so that no other page can send it. */
  String token(Context request);

  /** Whether what is sent was sent by a page of ours in this browser. */
  boolean ours(Context request);

  /**
   * Who authorises what a form asks for: by a name and a secret that it brings along, in the fields
   * {@code supervisor} and {@code pin}, whoever is signed in.
   *
   * @return the supervisor's name, for the record
   * @throws Refusal if nobody does
   */
  String authoriser(Context request) throws Refusal;

  /** Who may be asked to authorise something. */
  Supervision supervision();

  /**
   * Those who authorise. Immutable.
   *
   * @param names to choose from; empty if any name is taken
   * @param secret whether they prove it by a PIN or a password
   */
  record Supervision(List<String> names, boolean secret) {
    public Supervision {
      names = List.copyOf(names);
    }
  }

  /**
   * Whether a browser has a page open that sees live data.
   *
   * @param browser as {@link Visitor#browser} tells it
   */
  boolean watches(String browser);

  /**
   * Begins to watch; to be closed at its end.
   *
   * @throws Refusal if this browser, or its computer, watches too much already
   */
  Watch watch(Context request) throws Refusal;

  /** A browser that sees live data. */
  interface Watch extends AutoCloseable {
    /** Whether it may go on: nobody has signed out, and nobody's right was taken away. */
    boolean goesOn();

    @Override
    void close();
  }
}

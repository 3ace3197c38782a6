package org.benchstroke.web;

import io.javalin.http.Context;
import java.util.Optional;

/** Who may do what, asked for every request before its page is. Any thread, several at a time. */
public interface Access {
  /** Who sends it; empty if that is not known yet, and then {@link #ask} answers. */
  Optional<Visitor> visitor(Context request);

  /** Answers a request of nobody known: leads to where one signs in. */
  void ask(Context request);

  /** What a form of this browser carries, so that no other page can send it. */
  String token(Context request);

  /** Whether what is sent was sent by a page of ours in this browser. */
  boolean ours(Context request);

  /** The headers that every answer carries. */
  void head(Context request);
}

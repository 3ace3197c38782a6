package org.benchstroke.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Which address is answered by what, and by whose right: every request comes through here, so that
 * nothing is answered without one. Set up on one thread; handlers run on many.
 */
public final class Routes {
  /** Answers a request. */
  public interface Handler {
    void handle(Visit visit) throws Exception;
  }

  /** Opens the news for a browser. */
  public interface Opening {
    Feed open(Visit visit) throws Exception;
  }

  /** A browser is noticed gone only when something is sent. */
  private static final long HEARTBEAT_MILLIS = 2_000;

  private static final int MOST_LISTENERS = 96;

  private final JavalinConfig config;
  private final Access access;
  private final Face face;
  private final AtomicInteger listeners = new AtomicInteger();

  Routes(JavalinConfig config, Access access, Face face) {
    this.config = config;
    this.access = access;
    this.face = face;
  }

  /**
   * A page or a file that is read.
   *
   * @param path as Javalin has it: "/unit/{serial}"
   */
  public void get(String path, Right right, Handler handler) {
    config.routes.get(path, context -> admitted(context, right, handler));
  }

  /** Something that is done; by a form of ours only. */
  public void post(String path, Right right, Handler handler) {
    config.routes.post(
        path,
        context -> {
          if (!access.ours(context)) {
            throw Refusal.notAllowed(
                "This was not sent by a page of the bench screen that is open in this browser."
                    + " Open the page again and repeat it there.");
          }
          admitted(context, right, handler);
        });
  }

  /** News as they happen, as server-sent events; a comment in between when there are none. */
  public void live(String path, Right right, Opening opening) {
    config.routes.get(path, context -> admitted(context, right, visit -> stream(visit, opening)));
  }

  private void admitted(Context context, Right right, Handler handler) throws Exception {
    access.head(context);
    Optional<Visitor> visitor = access.visitor(context);
    if (visitor.isEmpty()) {
      access.ask(context);
      return;
    }
    if (!visitor.get().may(right)) {
      throw Refusal.notAllowed(
          right == Right.DRIVE
              ? "You may look at everything here, but not drive the bench. Sign in as somebody who"
                  + " may."
              : "This wants a supervisor. Ask one to sign in.");
    }
    handler.handle(new Visit(context, visitor.get(), access, face));
  }

  private void stream(Visit visit, Opening opening) throws Exception {
    if (listeners.incrementAndGet() > MOST_LISTENERS) {
      listeners.decrementAndGet();
      throw Refusal.full("Too many pages watch the bench at once. Close some of them.");
    }
    try (Feed feed = opening.open(visit)) {
      visit.context().res().setContentType("text/event-stream; charset=utf-8");
      send(visit.context().res().getOutputStream(), feed);
    } finally {
      listeners.decrementAndGet();
    }
  }

  private static void send(OutputStream out, Feed feed) {
    try {
      write(out, "retry: 1000\n\n");
      while (!Thread.currentThread().isInterrupted()) {
        Optional<Feed.News> news = feed.next(HEARTBEAT_MILLIS);
        write(
            out,
            news.map(n -> "event: " + n.kind() + "\ndata: " + n.data() + "\n\n")
                .orElse("event: beat\ndata: 0\n\n"));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (IOException gone) {
      // The browser went; it asks again when it is back.
      return;
    }
  }

  private static void write(OutputStream out, String text) throws IOException {
    out.write(text.getBytes(StandardCharsets.UTF_8));
    out.flush();
  }
}

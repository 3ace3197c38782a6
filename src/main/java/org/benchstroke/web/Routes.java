package org.benchstroke.web;

import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
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
  private final List<Route> all = new ArrayList<>();

  /**
   * An address that is answered.
   *
   * @param method GET or POST
   * @param path as it was registered
   * @param right that it wants; empty where nobody need be signed in
   * @param live whether it is news, not a page
   */
  public record Route(String method, String path, Optional<Right> right, boolean live) {}

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
    all.add(new Route("GET", path, Optional.of(right), false));
    config.routes.get(path, context -> admitted(context, right, handler));
  }

  /**
   * Something that is done; by a form of ours only. Where it must be authorised, whoever may drive
   * sends it, and a supervisor's PIN comes along: {@link Visit#authoriser}.
   */
  public void post(String path, Right right, Handler handler) {
    all.add(new Route("POST", path, Optional.of(right), false));
    config.routes.post(
        path,
        context -> {
          requireOurs(context);
          if (right == Right.AUTHORISE) {
            admitted(context, Right.DRIVE, visit -> authorised(visit, handler));
          } else {
            admitted(context, right, handler);
          }
        });
  }

  private void authorised(Visit visit, Handler handler) throws Exception {
    handler.handle(visit.authorisedBy(access.authoriser(visit.context())));
  }

  private void requireOurs(Context context) throws Refusal {
    if (!access.ours(context)) {
      throw Refusal.notAllowed(
          "This was not sent by a page of the bench screen that is open in this browser."
              + " Open the page again and repeat it there.");
    }
  }

  /** A page that is seen before anybody is signed in. */
  public void open(String path, Handler handler) {
    all.add(new Route("GET", path, Optional.empty(), false));
    config.routes.get(path, context -> handler.handle(anybody(context)));
  }

  /** Likewise, something that is done; by a form of ours only. */
  public void openPost(String path, Handler handler) {
    all.add(new Route("POST", path, Optional.empty(), false));
    config.routes.post(
        path,
        context -> {
          requireOurs(context);
          handler.handle(anybody(context));
        });
  }

  private Visit anybody(Context context) {
    Visitor visitor = access.visitor(context).orElse(new Visitor("", "", Right.READ));
    return new Visit(context, visitor, access, face);
  }

  /** All that were registered until now. */
  List<Route> all() {
    return List.copyOf(all);
  }

  /** News as they happen, as server-sent events; a comment in between when there are none. */
  public void live(String path, Right right, Opening opening) {
    all.add(new Route("GET", path, Optional.of(right), true));
    config.routes.get(path, context -> admitted(context, right, visit -> stream(visit, opening)));
  }

  private void admitted(Context context, Right right, Handler handler) throws Exception {
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
    try (Access.Watch watch = access.watch(visit.context());
        Feed feed = opening.open(visit)) {
      visit.context().res().setContentType("text/event-stream; charset=utf-8");
      send(visit.context().res().getOutputStream(), feed, watch);
    } finally {
      listeners.decrementAndGet();
    }
  }

  private static void send(OutputStream out, Feed feed, Access.Watch watch) {
    try {
      write(out, "retry: 1000\n\n");
      while (watch.goesOn() && !Thread.currentThread().isInterrupted()) {
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

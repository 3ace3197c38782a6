package org.benchstroke.web;

import java.io.IOException;
import java.util.Optional;
import org.benchstroke.core.clock.Stopwatch;
import org.eclipse.jetty.io.Content;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;

/**
 * Cuts off what is sent too slowly: each request that drips holds a thread. Jetty's own handler for
 * this counts the bytes of all requests together, and so lets one drip among others.
 */
final class SlowBodies extends Handler.Wrapper {
  private static final double NANOS_PER_SECOND = 1e9;

  /** Before that nothing is said of how fast it comes. */
  private static final long GRACE_NANOS = 2_000_000_000L;

  private final double slowestPerSecond;

  /**
   * With a limit.
   *
   * @param slowestPerSecond bytes in a second, on average
   */
  SlowBodies(double slowestPerSecond) {
    this.slowestPerSecond = slowestPerSecond;
  }

  /** Something was sent too slowly. */
  static final class TooSlow extends IOException {
    private static final long serialVersionUID = 1L;

    TooSlow() {
      super("the request came too slowly");
    }
  }

  @Override
  public boolean handle(Request request, Response response, Callback callback) throws Exception {
    return super.handle(new Timed(request, slowestPerSecond), response, callback);
  }

  /** One request; its body is read by one thread at a time. */
  private static final class Timed extends Request.Wrapper {
    private final Stopwatch since = new Stopwatch();
    private final double slowestPerSecond;
    private long bytes;

    Timed(Request request, double slowestPerSecond) {
      super(request);
      this.slowestPerSecond = slowestPerSecond;
    }

    @Override
    public Content.Chunk read() {
      Optional<Content.Chunk> chunk = Optional.ofNullable(super.read());
      if (chunk.isEmpty() || Content.Chunk.isFailure(chunk.get())) {
        return chunk.orElse(null);
      }
      bytes += chunk.get().remaining();
      double seconds = since.nanos() / NANOS_PER_SECOND;
      if (chunk.get().isLast()
          || since.nanos() < GRACE_NANOS
          || bytes >= slowestPerSecond * seconds) {
        return chunk.get();
      }
      chunk.get().release();
      return Content.Chunk.from(new TooSlow(), true);
    }
  }
}

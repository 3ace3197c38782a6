package org.benchstroke.web;

import io.javalin.config.JavalinConfig;
import java.util.concurrent.TimeUnit;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.NetworkConnectionLimit;
import org.eclipse.jetty.server.handler.ErrorHandler;

/** How much, how slowly and how often somebody may ask: a sampler must not be late for it. */
final class Bounds {
  /** Far more than a form has. */
  static final int LARGEST_FORM_BYTES = 65_536;

  private static final int LARGEST_HEAD_BYTES = 8_192;

  /**
   * What is sent more slowly than this is cut off; the slowest shop network has a thousand times.
   */
  private static final int SLOWEST_BYTES_PER_SECOND = 500;

  /** Who takes or sends nothing for so long is given up. */
  private static final long IDLE_MILLIS = TimeUnit.SECONDS.toMillis(30);

  /** Sixteen stations on a dozen browsers, six connections each, and as many again. */
  private static final int MOST_CONNECTIONS = 256;

  private Bounds() {}

  static void set(JavalinConfig config) {
    config.http.maxRequestSize = LARGEST_FORM_BYTES;
    config.http.prefer405over404 = true;
    config.jetty.modifyHttpConfiguration(Bounds::set);
    config.jetty.modifyServer(
        jetty -> {
          jetty.setStopTimeout(0);
          jetty.addBean(new NetworkConnectionLimit(MOST_CONNECTIONS, jetty));
          jetty.setHandler(new SlowBodies(SLOWEST_BYTES_PER_SECOND));
          // What is no request at all never reaches a page of ours.
          ErrorHandler plain = new ErrorHandler();
          plain.setShowStacks(false);
          plain.setShowCauses(false);
          plain.setShowOrigin(false);
          jetty.setErrorHandler(plain);
        });
  }

  private static void set(HttpConfiguration http) {
    http.setSendServerVersion(false);
    http.setSendXPoweredBy(false);
    http.setIdleTimeout(IDLE_MILLIS);
    http.setRequestHeaderSize(LARGEST_HEAD_BYTES);
  }
}

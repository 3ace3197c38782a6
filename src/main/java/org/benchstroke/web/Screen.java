package org.benchstroke.web;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.core.toml.FileMistakes;
import org.eclipse.jetty.server.ServerConnector;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The screen: a web server on one address. Opened and closed on any thread. */
public final class Screen implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Screen.class);

  private final Javalin server;
  private final String scheme;
  private final String address;
  private final List<Routes.Route> routes;

  private Screen(Javalin server, String scheme, String address, List<Routes.Route> routes) {
    this.server = server;
    this.scheme = scheme;
    this.address = address;
    this.routes = List.copyOf(routes);
  }

  /**
   * What a screen shows.
   *
   * @param title of the whole: the shop's name
   * @param simulated whether nothing on it is real
   * @param pages in the order of the navigation
   */
  public record Content(String title, boolean simulated, List<Pages> pages) {
    public Content {
      pages = List.copyOf(pages);
    }
  }

  /**
   * Opens it.
   *
   * @param address of this computer on which it is reached: "127.0.0.1"
   * @param port 1 to 65535; 0 for any that is free
   * @throws WrongRequest if it can't be opened there
   */
  public static Screen open(String address, int port, Access access, Content content)
      throws WrongRequest {
    return open(address, port, Optional.empty(), access, content);
  }

  /**
   * Likewise, over TLS if there is a certificate.
   *
   * @throws WrongRequest if it can't be opened there
   */
  public static Screen open(
      String address, int port, Optional<Certificate> tls, Access access, Content content)
      throws WrongRequest {
    List<Pages.Way> ways = content.pages().stream().flatMap(p -> p.ways().stream()).toList();
    Face face = new Face(content.title(), content.simulated(), ways);
    List<Routes.Route> routes = new ArrayList<>();
    try {
      Javalin server =
          Javalin.create(
                  config -> {
                    tls.ifPresent(c -> listen(config, address, port, c));
                    routes.addAll(configure(config, access, face, content.pages()));
                  })
              .start(address, port);
      return new Screen(server, (tls.isPresent() ? "https" : "http") + "://", address, routes);
    } catch (RuntimeException e) {
      throw new WrongRequest(
          "--port: the screen can't be opened on "
              + address
              + ", port "
              + port
              + ": "
              + reason(e)
              + "; name another port, or 0 for any that is free");
    }
  }

  private static void listen(
      JavalinConfig config, String address, int port, Certificate certificate) {
    config.jetty.addConnector(
        (server, http) -> {
          ServerConnector connector = certificate.connector(server, http);
          connector.setHost(address);
          connector.setPort(port);
          return connector;
        });
  }

  private static boolean isTooSlow(Throwable e) {
    Throwable each = e;
    while (each != null && !(each instanceof SlowBodies.TooSlow)) {
      each = each.getCause();
    }
    return each != null;
  }

  private static String reason(Throwable e) {
    Throwable deepest = e;
    while (deepest.getCause() != null) {
      deepest = deepest.getCause();
    }
    return Optional.ofNullable(deepest.getMessage()).orElse(deepest.toString());
  }

  private static List<Routes.Route> configure(
      JavalinConfig config, Access access, Face face, List<Pages> pages) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    Bounds.set(config);
    config.routes.before(access::admit);
    config.routes.exception(Refusal.class, (e, c) -> tell(c, access, face, e));
    config.routes.exception(
        WrongRequest.class, (e, c) -> tell(c, access, face, Refusal.wrong(e.getMessage())));
    config.routes.exception(
        FileMistakes.class, (e, c) -> tell(c, access, face, Refusal.wrong(e.getMessage())));
    config.routes.exception(
        HttpResponseException.class, (e, c) -> tell(c, access, face, Refusal.of(e.getStatus())));
    config.routes.exception(
        Exception.class,
        (e, c) -> {
          if (isTooSlow(e)) {
            tell(c, access, face, Refusal.of(408));
            return;
          }
          LOG.warn("{} {} failed", c.method(), c.path(), e);
          tell(
              c,
              access,
              face,
              Refusal.wrong(
                  "The screen failed at this page: "
                      + reason(e)
                      + ". A run that goes on is not touched by it. This is a fault in the program;"
                      + " please report it."));
        });
    Routes routes = new Routes(config, access, face);
    new Assets().register(config);
    pages.forEach(each -> each.register(routes));
    return routes.all();
  }

  /** A page for people, a line for scripts. */
  private static void tell(Context context, Access access, Face face, Refusal refusal) {
    context.status(refusal.status());
    String wanted = Optional.ofNullable(context.header("Accept")).orElse("");
    // Whoever calls us by a name that isn't ours gets no page, and no cookie.
    boolean page = wanted.contains("text/html") && refusal.status() != Refusal.ELSEWHERE;
    Optional<Visitor> visitor = page ? access.visitor(context) : Optional.empty();
    if (visitor.isEmpty()) {
      context.contentType("text/plain; charset=utf-8").result(refusal.getMessage());
      return;
    }
    Visit visit = new Visit(context, visitor.get(), access, face);
    String title = refusal.title();
    visit.show(
        "web/trouble.jte", new Trouble(visit.layout(title, ""), title, refusal.getMessage()));
  }

  /** Every address that is answered, but for scripts and styles. */
  public List<Routes.Route> routes() {
    return routes;
  }

  public int port() {
    return server.port();
  }

  /** What is typed into a browser. */
  public String url() {
    String host = address.contains(":") ? "[" + address + "]" : address;
    return scheme + host + ":" + port() + "/";
  }

  /** Every browser is let go; what runs on a bench is not touched. */
  @Override
  public void close() {
    server.stop();
  }
}

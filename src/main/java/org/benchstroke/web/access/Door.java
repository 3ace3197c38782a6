package org.benchstroke.web.access;

import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.SameSite;
import java.net.InetAddress;
import java.net.URLEncoder;
import java.net.UnknownHostException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.benchstroke.app.ShopFile;
import org.benchstroke.core.clock.BenchClock;
import org.benchstroke.core.quantity.Visible;
import org.benchstroke.web.Access;
import org.benchstroke.web.Refusal;
import org.benchstroke.web.Right;
import org.benchstroke.web.Visitor;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Lets requests in: by the name and secret of an operator, or on this machine alone as whoever sits
 * at it. Any thread.
 */
public final class Door implements Access {
  private static final Logger LOG = LoggerFactory.getLogger(Door.class);
  static final String SIGN_IN = "/sign-in";
  private static final Set<String> METHODS = Set.of("GET", "HEAD", "POST");
  private static final String ID = "access.id";
  private static final String SESSION = "access.session";
  private static final String TOKEN_FIELD = "token";
  private static final String TOKEN_HEADER = "Bench-Token";

  private final HostNames names;
  private final SignIn signIn;
  private final Sessions sessions;
  private final Watching watching = new Watching();
  private final Ids ids = new Ids();
  private final Optional<ShopFile> shop;
  private final boolean secure;

  /**
   * A door.
   *
   * @param operators who may sign in; while there is no such file, requests of this machine need no
   *     secret
   * @param shop its operators and supervisors
   * @param names by which browsers call this machine, beside those of the loopback
   * @param secure whether browsers reach it by TLS
   * @param clock by which sessions and attempts are timed
   */
  public Door(
      Operators operators,
      Optional<ShopFile> shop,
      List<String> names,
      boolean secure,
      BenchClock clock) {
    this.names = new HostNames(names);
    this.signIn = new SignIn(operators, clock);
    this.sessions = new Sessions(clock);
    this.shop = shop;
    this.secure = secure;
  }

  @Override
  public void admit(Context request) throws Refusal {
    head(request);
    if (!names.allow(host(request), address(request.req().getLocalAddr()))) {
      throw Refusal.elsewhere(
          "This is the bench screen, but it is not called by this name. Open it by the address"
              + " that \"serve\" printed, or state the name: serve --name NAME.");
    }
    if (!METHODS.contains(request.req().getMethod())) {
      throw Refusal.notAllowed("Nothing here is asked for in this way.");
    }
  }

  private static void head(Context request) {
    request.header(
        "Content-Security-Policy",
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src"
            + " 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'");
    request.header("X-Content-Type-Options", "nosniff");
    request.header("X-Frame-Options", "DENY");
    // Not no-referrer: then a browser hides the origin of our own forms, too.
    request.header("Referrer-Policy", "same-origin");
    request.header("Cross-Origin-Opener-Policy", "same-origin");
    request.header("Cross-Origin-Resource-Policy", "same-origin");
    request.header(
        "Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()");
    request.header("Cache-Control", "no-store");
  }

  @Override
  public Optional<Visitor> visitor(Context request) {
    Optional<Session> session = session(request);
    if (session.isPresent()) {
      Right right = rightOf(session.get()).orElse(Right.READ);
      return Optional.of(new Visitor(session.get().who(), ids.label(session.get().id()), right));
    }
    if (signIn.needsSecret() || !from(request).isLoopbackAddress()) {
      return Optional.empty();
    }
    return Optional.of(new Visitor("", ids.label(id(request)), rightHere()));
  }

  /** Of whoever sits at this machine, while nobody has a secret. */
  private Right rightHere() {
    boolean supervised = shop.map(s -> !s.supervisors().isEmpty()).orElse(false);
    return supervised ? Right.DRIVE : Right.AUTHORISE;
  }

  private Optional<Session> session(Context request) {
    Optional<Session> known = Optional.ofNullable(request.attribute(SESSION));
    if (known.isPresent()) {
      return known;
    }
    Optional<Session> found = sessions.find(id(request));
    if (found.isPresent() && rightOf(found.get()).isEmpty()) {
      sessions.end(found.get());
      return Optional.empty();
    }
    found.ifPresent(session -> request.attribute(SESSION, session));
    return found;
  }

  /** What they may do now; empty if they have to sign in again. */
  private Optional<Right> rightOf(Session session) {
    if (!signIn.needsSecret()) {
      return Optional.of(rightHere());
    }
    return signIn
        .find(session.who())
        .filter(operator -> operator.secret().equals(session.proof()))
        .map(NamedOperator::right);
  }

  @Override
  public void ask(Context request) {
    if (wantsPage(request)) {
      String query = request.queryString() == null ? "" : "?" + request.queryString();
      String next = URLEncoder.encode(request.path() + query, StandardCharsets.UTF_8);
      request.redirect(SIGN_IN + "?next=" + next);
    } else {
      request.status(401).contentType("text/plain; charset=utf-8").result("Sign in first.");
    }
  }

  private static boolean wantsPage(Context request) {
    return request.req().getMethod().equals("GET")
        && Optional.ofNullable(request.header("Accept")).orElse("").contains("text/html");
  }

  @Override
  public String token(Context request) {
    return ids.token(id(request));
  }

  @Override
  public boolean ours(Context request) {
    Optional<String> site = Optional.ofNullable(request.header("Sec-Fetch-Site"));
    Optional<String> origin = Optional.ofNullable(request.header("Origin"));
    if (!site.orElse("same-origin").equals("same-origin")
        || !origin.map(o -> o.replaceFirst("^https?://", "").equals(host(request))).orElse(true)) {
      return false;
    }
    String sent =
        Optional.ofNullable(request.header(TOKEN_HEADER))
            .or(() -> Optional.ofNullable(request.formParam(TOKEN_FIELD)))
            .orElse("");
    return cookie(request).filter(id -> ids.isToken(id, sent)).isPresent();
  }

  @Override
  public String authoriser(Context request) throws Refusal {
    String name = field(request, "supervisor");
    if (!signIn.needsSecret()) {
      String said = name.isEmpty() ? visitor(request).map(Visitor::name).orElse("") : name;
      if (rightHere() != Right.AUTHORISE) {
        throw Refusal.notAllowed(
            "The shop file lists supervisors, but none of them has a PIN yet. Give one to each:"
                + " benchstroke operator add NAME --right authorise.");
      }
      if (OperatorsFile.nameFault(said).isPresent()) {
        throw Refusal.wrong("Say who authorises it.");
      }
      return said.strip();
    }
    NamedOperator proven = proven(request, name, field(request, "pin"));
    boolean listed = shop.map(s -> s.maySupervise(proven.name())).orElse(true);
    if (proven.right() != Right.AUTHORISE || !listed) {
      throw Refusal.notAllowed(
          proven.name()
              + (listed ? " may not authorise" : " is not among the shop file's supervisors")
              + ". Ask a supervisor.");
    }
    return proven.name();
  }

  private static String field(Context request, String name) {
    return Optional.ofNullable(request.formParam(name)).orElse("");
  }

  /** By name and secret, or a refusal that says why not. */
  private NamedOperator proven(Context request, String name, String secret) throws Refusal {
    InetAddress from = from(request);
    SignIn.Result result = signIn.prove(name, secret, from);
    if (result instanceof SignIn.Result.Proven proven) {
      return proven.operator();
    }
    LOG.info("{} from {}: not signed in", plain(name), from.getHostAddress());
    if (result instanceof SignIn.Result.TooSoon wait) {
      throw Refusal.tooSoon(
          "Too many attempts were wrong. Wait " + seconds(wait.seconds()) + ", then try again.");
    }
    if (result instanceof SignIn.Result.Busy) {
      throw Refusal.full("Others are signing in at this moment. Try again.");
    }
    throw Refusal.notAllowed("The name and the PIN or password don't belong together. Try again.");
  }

  private static String seconds(long seconds) {
    return seconds == 1 ? "1 second" : seconds + " seconds";
  }

  /** A line of a log stays a line, whatever somebody types for a name. */
  static String plain(String name) {
    String line = Visible.of(name.replace('\n', ' ').replace('\t', ' '));
    return line.length() > 60 ? line.substring(0, 60) + "…" : line;
  }

  /**
   * Signs somebody in; the browser gets an id that it had not before.
   *
   * @throws Refusal if they are not who they say
   */
  void signIn(Context request, String name, String secret) throws Refusal {
    String said = name.strip();
    String proof = "";
    if (signIn.needsSecret()) {
      NamedOperator operator = proven(request, said, secret);
      said = operator.name();
      proof = operator.secret();
    } else if (!from(request).isLoopbackAddress()) {
      throw Refusal.notAllowed("Without a PIN the screen is for its own computer only.");
    } else if (OperatorsFile.nameFault(said).isPresent()) {
      throw Refusal.wrong("Choose your name, or type it.");
    }
    signOut(request);
    Session session = sessions.open(said, proof);
    hand(request, session.id());
    LOG.info("{} from {}: signed in", plain(said), from(request).getHostAddress());
  }

  /** Signs this browser out. */
  void signOut(Context request) {
    session(request).ifPresent(sessions::end);
    request.attribute(SESSION, null);
    hand(request, Ids.fresh());
  }

  @Override
  public Supervision supervision() {
    if (!signIn.needsSecret()) {
      return new Supervision(List.of(), false);
    }
    return new Supervision(
        signIn.known().stream()
            .filter(operator -> operator.right() == Right.AUTHORISE)
            .map(NamedOperator::name)
            .filter(name -> shop.map(s -> s.maySupervise(name)).orElse(true))
            .toList(),
        true);
  }

  @Override
  public boolean watches(String browser) {
    return watching.has(browser);
  }

  /** Whether a name alone proves nothing. */
  boolean needsSecret() {
    return signIn.needsSecret();
  }

  /** The names to choose from. */
  List<String> known() {
    return signIn.needsSecret()
        ? signIn.known().stream().map(NamedOperator::name).toList()
        : shop.map(ShopFile::operators).orElse(List.of());
  }

  @Override
  public Watch watch(Context request) throws Refusal {
    Optional<Session> session = session(request);
    Runnable end = watching.begin(ids.label(id(request)), from(request));
    session.ifPresent(s -> s.live().incrementAndGet());
    return new Watch() {
      @Override
      public boolean goesOn() {
        return session
            .map(s -> sessions.goesOn(s) && rightOf(s).isPresent())
            .orElseGet(() -> !signIn.needsSecret());
      }

      @Override
      public void close() {
        session.ifPresent(sessions::watchedOnce);
        end.run();
      }
    };
  }

  /** The id of this browser; one that has none is given one. */
  private String id(Context request) {
    Optional<String> known = Optional.ofNullable(request.attribute(ID));
    if (known.isPresent()) {
      return known.get();
    }
    Optional<String> brought = cookie(request);
    String id = brought.orElseGet(Ids::fresh);
    if (brought.isEmpty()) {
      hand(request, id);
    }
    request.attribute(ID, id);
    return id;
  }

  private Optional<String> cookie(Context request) {
    return Optional.ofNullable(request.cookie(name(request))).filter(Ids::mayBe);
  }

  private void hand(Context request, String id) {
    Cookie cookie = new Cookie(name(request), id);
    cookie.setHttpOnly(true);
    cookie.setSecure(secure);
    cookie.setSameSite(SameSite.STRICT);
    cookie.setPath("/");
    request.cookie(cookie);
    request.attribute(ID, id);
  }

  /** With the port: a browser keeps cookies of a machine together, whatever their ports. */
  private String name(Context request) {
    return (secure ? "__Host-" : "") + "benchstroke-" + request.req().getLocalPort();
  }

  private static String host(Context request) {
    return Optional.ofNullable(request.header("Host")).orElse("");
  }

  private static InetAddress from(Context request) {
    return address(request.req().getRemoteAddr());
  }

  /** An address of a connection is never looked up. */
  private static InetAddress address(String literal) {
    try {
      return InetAddress.getByName(literal);
    } catch (UnknownHostException e) {
      throw new IllegalStateException("a connection has an address", e);
    }
  }
}

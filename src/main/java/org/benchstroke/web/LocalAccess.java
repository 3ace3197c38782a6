package org.benchstroke.web;

import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.SameSite;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.Optional;

/**
 * On this computer alone: whoever sits at it may do everything. Each browser has a token of its own
 * in a cookie, which its forms repeat. Any thread.
 */
public final class LocalAccess implements Access {
  private static final String COOKIE = "browser";
  private static final int TOKEN_BYTES = 16;

  private final SecureRandom random = new SecureRandom();

  @Override
  public Optional<Visitor> visitor(Context request) {
    return Optional.of(new Visitor("", token(request), Right.AUTHORISE));
  }

  @Override
  public void ask(Context request) {
    request.status(403);
  }

  @Override
  public String token(Context request) {
    String known = request.attribute(COOKIE);
    if (known == null) {
      known = request.cookie(COOKIE);
    }
    if (known == null || !known.matches("[0-9a-f]{32}")) {
      byte[] bytes = new byte[TOKEN_BYTES];
      random.nextBytes(bytes);
      known = HexFormat.of().formatHex(bytes);
      Cookie cookie = new Cookie(COOKIE, known);
      cookie.setHttpOnly(true);
      cookie.setSameSite(SameSite.STRICT);
      cookie.setPath("/");
      request.cookie(cookie);
    }
    request.attribute(COOKIE, known);
    return known;
  }

  @Override
  public boolean ours(Context request) {
    String sent = request.formParam("token");
    return sent != null && sent.equals(request.cookie(COOKIE));
  }

  @Override
  public void head(Context request) {
    request.header(
        "Content-Security-Policy",
        "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self'"
            + " data:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors"
            + " 'none'");
    request.header("X-Content-Type-Options", "nosniff");
    request.header("Referrer-Policy", "same-origin");
    request.header("Cache-Control", "no-store");
  }
}

package org.benchstroke.web.access;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.benchstroke.web.Layout;
import org.benchstroke.web.Pages;
import org.benchstroke.web.Refusal;
import org.benchstroke.web.Right;
import org.benchstroke.web.Routes;
import org.benchstroke.web.Visit;

/** Where one says who one is. Any thread. */
public final class SignInPages implements Pages {
  /** A path of ours: nothing that a browser would take for the address of another machine. */
  private static final Pattern PATH = Pattern.compile("/(?![/\\\\])[\\x21-\\x7e&&[^\\\\]]*");

  private static final String START = "/";

  private final Door door;

  public SignInPages(Door door) {
    this.door = door;
  }

  /**
   * The page.
   *
   * @param names to choose from
   * @param secret whether a PIN or a password is asked for
   * @param next where it goes on
   * @param said the name that was given last; empty at first
   * @param wrong what was wrong with it; empty at first
   */
  public record Page(
      Layout layout, List<String> names, boolean secret, String next, String said, String wrong) {
    public Page {
      names = List.copyOf(names);
    }
  }

  @Override
  public void register(Routes routes) {
    routes.open(Door.SIGN_IN, visit -> show(visit, next(visit.query("next")), "", ""));
    routes.openPost(Door.SIGN_IN, this::signIn);
    routes.post(
        "/sign-out",
        Right.READ,
        visit -> {
          door.signOut(visit.context());
          visit.goTo(door.needsSecret() ? Door.SIGN_IN : START);
        });
  }

  private void show(Visit visit, String next, String said, String wrong) {
    Layout layout =
        visit.layout(door.needsSecret() ? "Sign in" : "Who are you?", "").with("pin.js");
    visit.show(
        "web/sign-in.jte", new Page(layout, door.known(), door.needsSecret(), next, said, wrong));
  }

  private void signIn(Visit visit) {
    String next = next(visit.form("next"));
    String name = visit.form("name").or(() -> visit.form("other")).orElse("");
    // As it was typed: a password may begin with a blank.
    String secret = Optional.ofNullable(visit.context().formParam("pin")).orElse("");
    try {
      door.signIn(visit.context(), name, secret);
      visit.goTo(next);
    } catch (Refusal refusal) {
      visit.context().status(refusal.status());
      show(visit, next, name, refusal.getMessage());
    }
  }

  /** Where to go on: somewhere here, whatever the address says. */
  static String next(Optional<String> asked) {
    return asked.filter(path -> PATH.matcher(path).matches()).orElse(START);
  }
}

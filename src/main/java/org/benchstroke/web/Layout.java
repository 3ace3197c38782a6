package org.benchstroke.web;

import java.util.List;

/**
 * What stands around a page. Immutable.
 *
 * @param title of the page
 * @param here the key of the navigation's entry that it belongs to; empty for none
 * @param shop what the whole screen is titled
 * @param ways the navigation
 * @param who is signed in; empty where nobody has to
 * @param token for its forms
 * @param simulated whether nothing on the screen is real
 * @param scripts the files of its scripts, beside those that every page has
 * @param stop where STOP leads; empty for who may not stop anything
 */
public record Layout(
    String title,
    String here,
    String shop,
    List<Pages.Way> ways,
    String who,
    String token,
    boolean simulated,
    List<String> scripts,
    String stop) {
  public Layout {
    ways = List.copyOf(ways);
    scripts = List.copyOf(scripts);
  }

  /** With scripts of its own; they are served from {@code /static/}. */
  public Layout with(String... files) {
    return new Layout(title, here, shop, ways, who, token, simulated, List.of(files), stop);
  }

  /** Where STOP stops one station alone. */
  public Layout stoppedBy(String path) {
    String leads = stop.isEmpty() ? stop : path;
    return new Layout(title, here, shop, ways, who, token, simulated, scripts, leads);
  }
}

package org.benchstroke.web;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.stations.Driven;
import org.benchstroke.app.stations.Manners;
import org.benchstroke.web.access.Door;
import org.benchstroke.web.access.HandClock;
import org.benchstroke.web.access.Operators;
import org.benchstroke.web.access.SignInPages;

/** A screen of simulated stations that run a brief procedure, and nobody has to sign in. */
final class StationScreen implements AutoCloseable {
  private final Driven driven;
  private final Screen screen;

  private StationScreen(Driven driven, Screen screen) {
    this.driven = driven;
    this.screen = screen;
  }

  /**
   * Opens it.
   *
   * @param pace bench seconds per second; empty for as fast as it goes
   */
  static StationScreen open(Path folder, OptionalDouble pace, Manners manners) throws Exception {
    Driven driven = Driven.floor(folder, 2, pace, manners);
    HandClock clock = new HandClock();
    Door door =
        new Door(new Operators(Optional.empty(), clock), Optional.empty(), List.of(), false, clock);
    List<Pages> pages =
        List.of(new StationPages(driven.floor(), Defaults.NONE, List.of()), new SignInPages(door));
    Screen screen =
        Screen.open("127.0.0.1", 0, door, new Screen.Content("Invented shop", true, pages));
    return new StationScreen(driven, screen);
  }

  Driven driven() {
    return driven;
  }

  int port() {
    return screen.port();
  }

  String url(String path) {
    return "http://127.0.0.1:" + screen.port() + path;
  }

  @Override
  public void close() {
    driven.close();
    screen.close();
  }
}

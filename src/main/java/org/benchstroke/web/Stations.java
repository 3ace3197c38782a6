package org.benchstroke.web;

import java.util.List;

/** The stations of the bench. */
public final class Stations implements Pages {
  /** The page of all of them. */
  public record Page(Layout layout) {}

  @Override
  public void register(Routes routes) {
    routes.get(
        "/",
        Right.READ,
        visit -> visit.show("web/stations.jte", new Page(visit.layout("Stations", "stations"))));
  }

  @Override
  public List<Way> ways() {
    return List.of(new Way("stations", "/", "Stations"));
  }
}

package org.benchstroke.web;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.benchstroke.app.Defaults;
import org.benchstroke.app.ShopFile;
import org.benchstroke.app.WrongRequest;
import org.benchstroke.app.stations.Choice;
import org.benchstroke.app.stations.Driver;
import org.benchstroke.app.stations.Floor;
import org.benchstroke.app.stations.Job;
import org.benchstroke.app.stations.JobSheet;
import org.benchstroke.app.stations.NotNow;
import org.benchstroke.app.stations.Seen;
import org.benchstroke.app.stations.Stage;
import org.benchstroke.app.stations.Station;

/** The stations: all of them on one page, and each on its own, whatever it does. */
public final class StationPages implements Pages {
  private static final String KEY = "stations";

  private final Floor floor;
  private final Defaults stated;
  private final List<ScanCard> cards;
  private final StationPapers papers;

  /**
   * Of a floor.
   *
   * @param stated what is stated for all; the shop's operators are offered
   * @param cards what can be scanned in a demo; none elsewhere
   */
  public StationPages(Floor floor, Defaults stated, List<ScanCard> cards) {
    this.floor = floor;
    this.stated = stated;
    this.cards = List.copyOf(cards);
    this.papers = new StationPapers(stated);
  }

  /**
   * An invented unit that can be scanned without a scanner.
   *
   * @param serial of it
   * @param order that it belongs to
   */
  public record ScanCard(String serial, String order) {}

  /** The page of all of them. */
  public record All(Layout layout, List<Tile> tiles) {}

  /** A station in small, as it stands when the page is made. */
  public record Tile(String letter, String shape, Seen seen, String json) {}

  /** A station's page. */
  public record One(Layout layout, Station station, String shape, Seen seen, String json) {
    public String letter() {
      return station.place().letter();
    }

    /** The last characters of a serial number tell units apart from afar. */
    public String tail() {
      String serial = serial();
      return serial.length() > 4 ? "…" + serial.substring(serial.length() - 4) : serial;
    }

    public String serial() {
      return seen.job().map(j -> j.sheet().serial()).orElse("");
    }

    public String order() {
      return seen.job().map(j -> j.sheet().order()).orElse("");
    }
  }

  /**
   * What the next job is asked with.
   *
   * @param serial scanned already; else empty
   * @param order of the last job
   * @param operator of the last job, or who is signed in
   * @param asksOperator whether nobody has said yet who that is
   * @param operators who may be chosen
   * @param unitTypes files to choose from; none where the unit says it itself
   * @param procedures likewise
   * @param cards what can be scanned in a demo
   */
  public record NextJob(
      String serial,
      String order,
      String operator,
      boolean asksOperator,
      List<String> operators,
      List<Choice> unitTypes,
      List<Choice> procedures,
      List<ScanCard> cards) {}

  /** A page with a form for the next job. */
  public record Free(One one, NextJob next) {}

  /** The page of a job that was taken. */
  public record Taken(One one, Job job, Access.Supervision supervision) {}

  /** Where a supervisor is asked whether a station may be taken over. */
  public record HeldByOther(
      Layout layout, String letter, String holder, Access.Supervision supervision) {}

  /** What to do with what was scanned where no station was named. */
  public record Scanned(Layout layout, String serial, List<Tile> free) {}

  @Override
  public List<Way> ways() {
    return List.of(new Way(KEY, "/", "Stations"));
  }

  @Override
  public void register(Routes routes) {
    routes.get("/", Right.READ, this::all);
    routes.live("/stations/live", Right.READ, v -> new FloorFeed(floor, v.who().may(Right.DRIVE)));
    routes.post("/stop", Right.DRIVE, this::stopAll);
    routes.get(
        "/hand-over",
        Right.READ,
        v -> v.show("web/handover.jte", HandOver.of(floor, v.layout("Hand-over card", KEY))));
    routes.get("/scan", Right.READ, this::scanned);
    routes.get("/station/{letter}", Right.READ, this::one);
    routes.live("/station/{letter}/live", Right.READ, this::feed);
    routes.post("/station/{letter}/take", Right.DRIVE, this::take);
    routes.post("/station/{letter}/again", Right.DRIVE, this::again);
    routes.post("/station/{letter}/allow", Right.AUTHORISE, this::allow);
    routes.post("/station/{letter}/start", Right.DRIVE, v -> act(v, Station::start));
    routes.post("/station/{letter}/put-back", Right.DRIVE, v -> act(v, Station::putBack));
    routes.post("/station/{letter}/take-over", Right.DRIVE, this::takeOver);
    routes.post("/station/{letter}/stop", Right.DRIVE, this::stop);
    routes.post("/station/{letter}/shown", Right.DRIVE, v -> answer(v, Station::shown));
    routes.post("/station/{letter}/hold", Right.DRIVE, v -> answer(v, Station::hold));
    routes.post("/station/{letter}/release", Right.DRIVE, v -> answer(v, Station::release));
    routes.post("/station/{letter}/agree", Right.DRIVE, v -> answer(v, Station::agree));
    routes.post("/station/{letter}/refuse", Right.DRIVE, v -> answer(v, Station::refuse));
    routes.post("/station/{letter}/figure", Right.DRIVE, this::figure);
    papers.register(routes, this::station);
  }

  private void all(Visit visit) {
    List<Tile> tiles = floor.stations().stream().map(StationPages::tile).toList();
    visit.show(
        "web/stations.jte",
        new All(visit.layout("Stations", KEY).with("road.js", "stations.js"), tiles));
  }

  private static Tile tile(Station station) {
    Seen seen = station.seen();
    String letter = station.place().letter();
    return new Tile(
        letter, Shapes.ofStation(letter), seen, StationJson.text(StationJson.tile(station, seen)));
  }

  private Station station(Visit visit) throws Refusal {
    return floor
        .station(visit.path("letter"))
        .orElseThrow(() -> Refusal.notThere("There is no station of this letter."));
  }

  private Feed feed(Visit visit) throws Refusal {
    return new StationFeed(
        station(visit), floor.bell(), visit.who().browser(), visit.who().may(Right.DRIVE));
  }

  /** One address for whatever the station does: it leads to the page that fits. */
  private void one(Visit visit) throws Exception {
    Station station = station(visit);
    Seen seen = station.seen();
    String letter = station.place().letter();
    Layout layout =
        visit
            .layout("Station " + letter, KEY)
            .stoppedBy("/station/" + letter + "/stop")
            .with("uplot.js", "road.js", "station.js", "pin.js");
    One one =
        new One(
            layout,
            station,
            Shapes.ofStation(letter),
            seen,
            StationJson.text(StationJson.whole(station, seen, visit.who().browser())));
    switch (seen.stage()) {
      case FREE -> visit.show("web/job.jte", new Free(one, next(visit, station)));
      case TAKEN ->
          visit.show(
              "web/taken.jte", new Taken(one, seen.job().orElseThrow(), visit.supervision()));
      case RUNNING -> visit.show("web/running.jte", one);
      case ENDED -> visit.show("web/after.jte", papers.after(one, next(visit, station)));
    }
  }

  private NextJob next(Visit visit, Station station) {
    Optional<JobSheet> last = station.lastJob();
    String operator =
        visit.who().name().isEmpty() ? last.map(JobSheet::operator).orElse("") : visit.who().name();
    return new NextJob(
        visit.query("serial").orElse(""),
        visit.query("order").or(() -> last.map(JobSheet::order)).orElse(""),
        operator,
        visit.who().name().isEmpty(),
        stated.shop().map(ShopFile::operators).orElse(List.of()),
        Choice.ofUnitTypes(station.place()),
        Choice.ofProcedures(station.place()),
        cards);
  }

  private void take(Visit visit) throws Exception {
    Station station = station(visit);
    String operator = visit.who().name().isEmpty() ? words(visit, "operator") : visit.who().name();
    JobSheet sheet =
        new JobSheet(
            words(visit, "serial"),
            words(visit, "order"),
            operator,
            chosen(visit, "unitType", Choice.ofUnitTypes(station.place())),
            chosen(visit, "procedure", Choice.ofProcedures(station.place())),
            Optional.empty());
    try {
      floor.take(station, sheet, new Driver(visit.who().browser(), operator));
    } catch (NotNow e) {
      throw Refusal.notNow(e.getMessage());
    }
    visit.goTo("/station/" + station.place().letter());
  }

  /** The unit that is there, once more: after somebody has turned something. */
  private void again(Visit visit) throws Exception {
    Station station = station(visit);
    JobSheet sheet =
        station
            .lastJob()
            .orElseThrow(() -> Refusal.notNow("No unit was here yet: scan one."))
            .anew(visit.who().name());
    try {
      floor.take(station, sheet, new Driver(visit.who().browser(), sheet.operator()));
    } catch (NotNow e) {
      throw Refusal.notNow(e.getMessage());
    }
    visit.goTo("/station/" + station.place().letter());
  }

  private static String words(Visit visit, String field) throws Refusal {
    return visit
        .form(field)
        .orElseThrow(
            () ->
                Refusal.wrong(
                    switch (field) {
                      case "serial" -> "Which unit? Scan or type its serial number.";
                      case "order" -> "Which order? Scan or type it; \"none\" is an answer.";
                      default -> "Who tests it? Type your name.";
                    }));
  }

  /** Only files that were offered: a name from outside is no path. */
  private static Optional<Path> chosen(Visit visit, String field, List<Choice> offered)
      throws Refusal {
    Optional<String> named = visit.form(field);
    if (named.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        offered.stream()
            .map(Choice::file)
            .filter(file -> file.getFileName().toString().equals(named.get()))
            .findFirst()
            .orElseThrow(() -> Refusal.wrong("\"" + named.get() + "\" is not offered here.")));
  }

  private void allow(Visit visit) throws Exception {
    act(visit, (s, driver) -> s.allow(driver, visit.authoriser()));
  }

  private interface Deed {
    void done(Station station, Driver driver) throws NotNow, WrongRequest, IOException;
  }

  private void act(Visit visit, Deed deed) throws Exception {
    Station station = station(visit);
    try {
      deed.done(station, driver(visit, station));
    } catch (NotNow e) {
      throw Refusal.notNow(e.getMessage());
    }
    visit.goTo("/station/" + station.place().letter());
  }

  /**
   * From oneself at another browser, or from a browser that is gone; from somebody who has the page
   * open only with a supervisor.
   */
  private void takeOver(Visit visit) throws Exception {
    Station station = station(visit);
    Optional<Driver> other = station.seen().holder().filter(holder -> isHeld(holder, visit));
    if (other.isPresent() && visit.form("supervisor").isEmpty()) {
      Layout layout = visit.layout("Station " + station.place().letter(), KEY).with("pin.js");
      visit.refuse(
          "web/takeover.jte",
          new HeldByOther(
              layout, station.place().letter(), other.get().name(), visit.supervision()));
      return;
    }
    if (other.isPresent()) {
      visit.mustBeAuthorised();
    }
    act(visit, Station::takeOver);
  }

  private static boolean isHeld(Driver holder, Visit visit) {
    boolean same = holder.name().equalsIgnoreCase(visit.who().name());
    return visit.supervision().secret() && !same && visit.isThere(holder.screen());
  }

  private interface Reply {
    void given(Station station, Driver driver, long id) throws NotNow;
  }

  private void answer(Visit visit, Reply reply) throws Refusal {
    Station station = station(visit);
    long id =
        visit
            .form("id")
            .filter(text -> text.matches("[0-9]{1,15}"))
            .map(Long::parseLong)
            .orElseThrow(() -> Refusal.wrong("The page did not say which question it answers."));
    try {
      reply.given(station, driver(visit, station), id);
    } catch (NotNow e) {
      throw Refusal.notNow(e.getMessage());
    }
    visit.done();
  }

  private void figure(Visit visit) throws Refusal {
    String typed = visit.form("figure").orElse("");
    answer(visit, (station, driver, id) -> station.figure(driver, id, typed));
  }

  /** Whoever is not signed in is called by the name that the job was taken with. */
  private static Driver driver(Visit visit, Station station) {
    Visitor who = visit.who();
    String name =
        who.name().isEmpty()
            ? station.seen().job().map(j -> j.sheet().operator()).orElse("")
            : who.name();
    return new Driver(who.browser(), name);
  }

  private void stop(Visit visit) throws Refusal {
    Station station = station(visit);
    station.stop(visit.who().name());
    answered(visit, "/station/" + station.place().letter());
  }

  private void stopAll(Visit visit) {
    floor.stopAll(visit.who().name());
    answered(visit, "/");
  }

  /** A script wants no page. */
  private static void answered(Visit visit, String page) {
    String wanted = Optional.ofNullable(visit.context().header("Accept")).orElse("");
    if (wanted.toLowerCase(Locale.ROOT).contains("text/html")) {
      visit.goTo(page);
    } else {
      visit.done();
    }
  }

  private void scanned(Visit visit) throws Refusal {
    String serial =
        visit.query("text").orElseThrow(() -> Refusal.wrong("Nothing readable was scanned."));
    Optional<Station> there = floor.where(serial).filter(s -> s.seen().stage() != Stage.ENDED);
    if (there.isPresent()) {
      visit.goTo("/station/" + there.get().place().letter());
      return;
    }
    List<Tile> free =
        floor.stations().stream()
            .filter(s -> s.seen().stage() == Stage.FREE || s.seen().stage() == Stage.ENDED)
            .map(StationPages::tile)
            .toList();
    visit.show(
        "web/scanned.jte", new Scanned(visit.layout("Scanned: " + serial, KEY), serial, free));
  }
}

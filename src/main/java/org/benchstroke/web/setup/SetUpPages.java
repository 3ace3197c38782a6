package org.benchstroke.web.setup;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.benchstroke.app.SetUpDesk;
import org.benchstroke.app.SettingUp;
import org.benchstroke.app.stations.Driver;
import org.benchstroke.app.stations.Floor;
import org.benchstroke.app.stations.Job;
import org.benchstroke.app.stations.JobSheet;
import org.benchstroke.app.stations.NotNow;
import org.benchstroke.app.stations.Place;
import org.benchstroke.app.stations.Stage;
import org.benchstroke.app.stations.Station;
import org.benchstroke.setup.Field;
import org.benchstroke.setup.FieldKey;
import org.benchstroke.setup.Picture;
import org.benchstroke.setup.SetUpAnswer;
import org.benchstroke.setup.SetUpState;
import org.benchstroke.setup.Step;
import org.benchstroke.setup.StepKey;
import org.benchstroke.web.Feed;
import org.benchstroke.web.Layout;
import org.benchstroke.web.Pages;
import org.benchstroke.web.Refusal;
import org.benchstroke.web.Right;
import org.benchstroke.web.Routes;
import org.benchstroke.web.Visit;

/**
 * The guided set-up of the unit whose job a station has taken. The station's holder drives it;
 * others look on. Any thread.
 */
public final class SetUpPages implements Pages, AutoCloseable {
  private static final Map<String, String> PAGES =
      Map.of("svg", "image/svg+xml", "png", "image/png", "pdf", "application/pdf");

  private final Floor floor;
  private final Map<String, SetUpDesk> desks = new ConcurrentHashMap<>();

  /** Of a floor's stations. */
  public SetUpPages(Floor floor) {
    this.floor = floor;
  }

  /**
   * A page of a set-up.
   *
   * @param layout around it
   * @param letter of the station
   * @param serial of the unit
   * @param order that it belongs to
   * @param desk where it goes on; empty before it was begun
   * @param state how it stood when the page was made
   * @param json the same for the script
   * @param manual where the maker's own page is; empty if none is shown here
   * @param drives whether whoever looks drives it
   */
  public record Page(
      Layout layout,
      String letter,
      String serial,
      String order,
      Optional<SetUpDesk> desk,
      Optional<SetUpState> state,
      String json,
      Optional<String> manual,
      boolean drives) {
    public SetUpState now() {
      return state.orElseThrow();
    }

    public boolean may(String kind) {
      return drives && now().allowed().contains(SetUpAnswer.Kind.valueOf(kind));
    }

    /** Whether the power comes on by the answer to its caution. */
    public boolean energises() {
      return now().step().form() instanceof Step.Energise;
    }

    /** Whether what the person does stands on the page, beside or instead of a caution. */
    public boolean work() {
      return now().caution().isEmpty() || energises();
    }

    /** Whether something is read live. */
    public boolean live() {
      return now().caution().isEmpty() && now().step().live();
    }

    public boolean dial() {
      return live() && !(now().step().form() instanceof Step.Calibrate && !seesAngle());
    }

    private boolean seesAngle() {
      return now().live().degrees().isPresent();
    }

    public boolean lamp() {
      return live() && now().step().form() instanceof Step.Cam;
    }

    public boolean isChoice(Field field) {
      return field.kind() instanceof Field.Choice;
    }

    public List<String> choices(Field field) {
      return field.kind() instanceof Field.Choice choice ? choice.words() : List.of();
    }

    public String unit(Field field) {
      return field.kind() instanceof Field.Figure figure ? figure.unit() : "";
    }

    public String picture() {
      return "/set-up/picture/" + now().step().picture().file();
    }
  }

  @Override
  public void register(Routes routes) {
    routes.get("/set-up/picture/{name}", Right.READ, this::picture);
    routes.get("/set-up/{letter}", Right.READ, this::page);
    routes.get("/set-up/{letter}/manual", Right.READ, this::manual);
    routes.live("/set-up/{letter}/live", Right.READ, this::feed);
    routes.post("/set-up/{letter}/begin", Right.DRIVE, this::begin);
    routes.post("/set-up/{letter}/answer", Right.DRIVE, this::answer);
    routes.post("/set-up/{letter}/help", Right.DRIVE, this::help);
    routes.post("/set-up/{letter}/stop", Right.DRIVE, this::stop);
    routes.post("/set-up/{letter}/leave", Right.DRIVE, this::leave);
  }

  private Station station(Visit visit) throws Refusal {
    return floor
        .station(visit.path("letter"))
        .orElseThrow(() -> Refusal.notThere("There is no station of this letter."));
  }

  private static Job job(Station station) throws Refusal {
    return station
        .seen()
        .job()
        .filter(job -> station.seen().stage() == Stage.TAKEN)
        .orElseThrow(
            () -> Refusal.notNow("Take a job at this station first: its unit is then set up."));
  }

  private Optional<SetUpDesk> desk(Station station, Job job) {
    return Optional.ofNullable(desks.get(station.place().letter()))
        .filter(desk -> desk.settingUp().plan().serial().equals(job.sheet().serial()))
        .filter(desk -> desk.settingUp().plan().order().equals(job.sheet().order()));
  }

  private SetUpDesk begun(Visit visit) throws Refusal {
    Station station = station(visit);
    return desk(station, job(station))
        .orElseThrow(() -> Refusal.notNow("No set-up was begun at this station."));
  }

  private static boolean drives(Visit visit, Station station) {
    Optional<Driver> holder = station.seen().holder();
    return visit.who().may(Right.DRIVE)
        && holder.filter(h -> !h.screen().equals(visit.who().browser())).isEmpty();
  }

  private void page(Visit visit) throws Refusal {
    Station station = station(visit);
    Job job = job(station);
    String letter = station.place().letter();
    Optional<SetUpDesk> desk = desk(station, job);
    Optional<SetUpState> state = desk.map(SetUpDesk::state);
    desk.ifPresent(SetUpDesk::watched);
    Layout layout =
        visit
            .layout("Set-up, station " + letter, "stations")
            .stoppedBy("/set-up/" + letter + "/stop")
            .with("set-up.js");
    visit.show(
        "web/set-up.jte",
        new Page(
            layout,
            letter,
            job.sheet().serial(),
            job.sheet().order(),
            desk,
            state,
            desk.map(d -> SetUpJson.text(d.state(), d.settingUp().plan().unit().travelDegrees()))
                .orElse("{}"),
            manual(letter, desk, state),
            drives(visit, station)));
  }

  /** At the step that it belongs to. */
  private static Optional<String> manual(
      String letter, Optional<SetUpDesk> desk, Optional<SetUpState> state) {
    return state
        .filter(s -> s.step().key() == StepKey.WIRE)
        .flatMap(s -> desk.orElseThrow().settingUp().manual())
        .map(m -> m.there() ? "/set-up/" + letter + "/manual" : "");
  }

  private void begin(Visit visit) throws Exception {
    Station station = station(visit);
    Job job = job(station);
    requireDriver(visit, station);
    String letter = station.place().letter();
    synchronized (desks) {
      Optional<SetUpDesk> there = Optional.ofNullable(desks.get(letter));
      if (there.filter(d -> d.state().ended().isEmpty()).isEmpty()) {
        Place place = station.place();
        SettingUp settingUp = SettingUp.of(place.setUp(job.sheet()), place.tool());
        desks.put(letter, SetUpDesk.begin(settingUp, place.seal()));
      }
    }
    visit.goTo("/set-up/" + letter);
  }

  private static void requireDriver(Visit visit, Station station) throws Refusal {
    if (!drives(visit, station)) {
      throw Refusal.notNow(
          "Another screen holds station "
              + station.place().letter()
              + ". Take it over there first.");
    }
  }

  private void answer(Visit visit) throws Exception {
    Station station = station(visit);
    requireDriver(visit, station);
    SetUpDesk desk = begun(visit);
    long number =
        visit
            .form("number")
            .filter(text -> text.matches("[0-9]{1,15}"))
            .map(Long::parseLong)
            .orElseThrow(() -> Refusal.wrong("The page did not say which step it answers."));
    desk.answer(number, said(visit, desk.state()));
    visit.goTo("/set-up/" + station.place().letter());
  }

  private static SetUpAnswer said(Visit visit, SetUpState state) throws Refusal {
    return switch (visit.form("say").orElse("")) {
      case "read" -> new SetUpAnswer.Read();
      case "move" -> move(visit, state);
      case "begin" -> new SetUpAnswer.Begin();
      case "mark" -> new SetUpAnswer.Mark();
      case "done" -> new SetUpAnswer.Done(typed(visit, state));
      case "again" -> new SetUpAnswer.Again();
      case "skip" -> new SetUpAnswer.Skip(visit.form("reason").orElse(""));
      case "came-set-up" -> new SetUpAnswer.CameSetUp();
      default -> throw Refusal.wrong("The page did not say what was answered.");
    };
  }

  /** Two deeds: the box, then the key. */
  private static SetUpAnswer move(Visit visit, SetUpState state) throws Refusal {
    if (visit.form("clear").isEmpty()) {
      throw Refusal.wrong("Tick that all hands are clear first; then let it move.");
    }
    return new SetUpAnswer.Move(typed(visit, state));
  }

  private static Map<FieldKey, String> typed(Visit visit, SetUpState state) {
    Map<FieldKey, String> typed = new EnumMap<>(FieldKey.class);
    for (Field field : state.step().fields()) {
      visit.form(field.key().key()).ifPresent(text -> typed.put(field.key(), text));
    }
    return typed;
  }

  private void help(Visit visit) throws Exception {
    Station station = station(visit);
    requireDriver(visit, station);
    begun(visit).help();
    visit.goTo("/set-up/" + station.place().letter());
  }

  private void stop(Visit visit) throws Refusal {
    Station station = station(visit);
    String who = visit.who().name();
    Optional.ofNullable(desks.get(station.place().letter()))
        .ifPresent(
            d -> d.stop("stopped at the bench screen" + (who.isBlank() ? "" : " by " + who)));
    String wanted = Optional.ofNullable(visit.context().header("Accept")).orElse("");
    if (wanted.toLowerCase(Locale.ROOT).contains("text/html")) {
      visit.goTo("/set-up/" + station.place().letter());
    } else {
      visit.done();
    }
  }

  /** Back to the job, which is taken anew: its run then knows the set-up. */
  private void leave(Visit visit) throws Exception {
    Station station = station(visit);
    Job job = job(station);
    requireDriver(visit, station);
    Optional<SetUpDesk> desk = desk(station, job);
    if (desk.filter(d -> d.state().ended().isEmpty()).isPresent()) {
      throw Refusal.notNow("The set-up goes on: finish it, or stop it.");
    }
    JobSheet sheet = job.sheet();
    try {
      floor.take(station, sheet, new Driver(visit.who().browser(), sheet.operator()));
    } catch (NotNow e) {
      throw Refusal.notNow(e.getMessage());
    }
    visit.goTo("/station/" + station.place().letter());
  }

  private Feed feed(Visit visit) throws Refusal {
    return new SetUpFeed(begun(visit), visit.who().may(Right.DRIVE));
  }

  private void picture(Visit visit) throws Refusal {
    for (Picture picture : Picture.values()) {
      if (picture.file().equals(visit.path("name"))) {
        visit.context().contentType("image/svg+xml");
        visit.context().result(picture.svg().getBytes(StandardCharsets.UTF_8));
        return;
      }
    }
    throw Refusal.notThere("There is no such picture.");
  }

  /** The maker's page: of a kind that runs nothing, and shown as that only. */
  private void manual(Visit visit) throws Refusal, IOException {
    Path file =
        begun(visit)
            .settingUp()
            .manual()
            .filter(SettingUp.Manual::there)
            .map(SettingUp.Manual::file)
            .orElseThrow(() -> Refusal.notThere("The maker's page is not there."));
    String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
    String type =
        Optional.ofNullable(PAGES.get(name.substring(name.lastIndexOf('.') + 1)))
            .orElseThrow(
                () -> Refusal.notThere("A maker's page is shown if it is SVG, PNG or PDF."));
    visit
        .context()
        .header(
            "Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; sandbox");
    visit.context().header("X-Content-Type-Options", "nosniff");
    visit.context().contentType(type);
    visit.context().result(Files.readAllBytes(file));
  }

  /** Ends every set-up, with its unit safe. */
  @Override
  public void close() {
    List<SetUpDesk> all = new ArrayList<>(desks.values());
    all.forEach(SetUpDesk::close);
  }
}
